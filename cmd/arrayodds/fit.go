package main

import (
	"context"
	"errors"
	"os"
	"path/filepath"
	"strings"

	"arrayodds/array/record"
	"arrayodds/array/record/sheets"
	"arrayodds/cmd/arrayodds/console"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

func (p program) fitCommand() *cli.Command {
	return &cli.Command{
		Name:      "fit",
		Usage:     "find a life law in a fleet's own record",
		UsageText: "arrayodds fit RECORD [flags]",
		Description: `Reads the record of a fleet and tells, label by label, the annual failure rate,
whether it changes with age, and the "life = ..." line for a site file, all
with their uncertainty. Writes a page with the curves beside the record (or to
--html FILE) and a table to standard output.

The form of the record is told by the headings of its columns:
   sums                 drive_days, failures; label, or age_from and age_to (years)
   drives by age        hours, failed; perhaps entered (age when watching began)
   drives by date       installed, removed, failed; perhaps observed_from
   daily snapshots      date, serial_number, model, capacity_bytes, failure;
                        perhaps smart_9_raw
Cells are parted by commas, semicolons or tabs. RECORD may be a workbook (.xlsx),
or packed as .gz or .zip; "-" is standard input, and the page then goes to
report.html. Dates have the year first, 2025-09-30, or last where some date shows
which of the others is the month; which was taken is said. Drives that still run
need --until.

EXAMPLE
   arrayodds fit drives.csv --until 2025-09-30 --json drives.json`,
		Flags: append(outputFlags(study.Fit{}, "the record's name with .html; report.html where that is standard input"),
			&cli.StringFlag{Name: "until", Usage: "the last `DATE` of watching: drives not removed by then were running"}),
		Action: action(p.runFit),
	}
}

func (p program) runFit(a *arguments) error {
	path := a.input("record")
	outs := p.outputs(a, study.Fit{}, recordPage(path), p.recordInput(path)...)
	until, understood := a.read.Until()
	var found study.Fit
	if path != "" {
		var err error
		found, err = p.fitRecord(a.ctx(), path, record.Options{Until: until, UntilUnknown: !understood, Workbook: sheets.Read})
		if err := a.note(err); err != nil {
			return err
		}
	}
	if err := a.err(); err != nil {
		return err
	}
	return writeResult(a.ctx(), p, outs, found, print.Fit)
}

// recordPage returns where the page of a record goes that no flag sends elsewhere:
// to the record's name with .html in place of what tells its form.
func recordPage(path string) string {
	if path == stdio {
		return "report.html"
	}
	for {
		end := filepath.Ext(path)
		switch strings.ToLower(end) {
		case ".csv", ".tsv", ".txt", ".xlsx", ".gz", ".zip":
			path = strings.TrimSuffix(path, end)
			continue
		}
		return path + ".html"
	}
}

// recordInput returns the file of a record, none where it is no file or not there.
func (p program) recordInput(path string) []input {
	info, err := os.Stat(path)
	if f, ok := p.in.(*os.File); path == stdio && ok {
		info, err = f.Stat()
	}
	if err != nil {
		return nil
	}
	return []input{{info, "the record"}}
}

// fitRecord reads a record and fits each of its labels. The error is of type
// [usageErrors] where the record is at fault, be it by not being there.
func (p program) fitRecord(ctx context.Context, path string, opt record.Options) (study.Fit, error) {
	name, from := path, p.in
	if path == stdio {
		name = "standard input"
	} else {
		f, err := os.Open(path)
		if err != nil {
			return study.Fit{}, usageErrorf("%v", err)
		}
		defer f.Close() // only read from
		shown := console.NewReading(f, p.err)
		defer shown.Clear()
		from = shown
	}
	rec, err := record.Read(ctx, from, name, opt)
	if errs, ok := errors.AsType[record.Errors](err); ok {
		var out usageErrors
		for _, e := range errs {
			out = append(out, e.Error())
		}
		return study.Fit{}, out
	}
	if pathErr := (*os.PathError)(nil); errors.As(err, &pathErr) { // such as reading a directory
		return study.Fit{}, usageErrorf("%v", err)
	}
	if err != nil {
		return study.Fit{}, err
	}
	return study.FitRecord(ctx, rec, filepath.Base(name))
}
