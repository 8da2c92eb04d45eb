package main

import (
	"context"
	"errors"
	"io"
	"os"
	"path/filepath"
	"strings"
	"time"

	"arrayodds/array/record"
	fitpage "arrayodds/charts/fit"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/fit"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

// fitFormats are the forms in which fit writes what it found.
var fitFormats = []format[study.Fit]{
	{"html", "write the page with the curves to `FILE`", false, fitpage.Write},
	{"json", "write every figure as JSON to `FILE`", false, export.FitJSON},
}

func (p program) fit() *cli.Command {
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
Cells are parted by commas, semicolons or tabs. RECORD may be packed as .gz or
.zip; "-" is standard input, and the page then goes to report.html.

EXAMPLE
   arrayodds fit drives.csv --until 2025-09-30 --json drives.json`,
		Flags: append(formatFlags(fitFormats, "the record's name with .html; report.html where that is standard input"),
			&cli.StringFlag{Name: "until", Usage: "the last `DATE` of watching: drives not removed by then were running"}),
		HideHelpCommand: true,
		OnUsageError:    usageError,
		Action:          p.runFit,
	}
}

func (p program) runFit(c *cli.Context) error {
	path, faults := argument(c, "record")
	if path == "" {
		return faults
	}
	outs := wanted(c, fitFormats, pageBeside(path))
	faults = append(faults, misplaced(p, outs, path, "the record")...)
	until, more := untilOf(c)
	faults = append(faults, more...)

	found, err := p.fitted(c.Context, path, record.Options{Until: until})
	if r, ok := errors.AsType[refused](err); ok || err == nil {
		faults = append(faults, r...)
	} else {
		return err
	}
	if faults != nil {
		return faults
	}
	standard, err := deliver(c.Context, outs, found)
	if err != nil {
		return err
	}
	return tell(p, outs, standard, func(w io.Writer) error { return print.Fitted(w, found) })
}

func untilOf(c *cli.Context) (time.Time, refused) {
	text := c.String("until")
	if !c.IsSet("until") {
		return time.Time{}, nil
	}
	d, ok := record.Date(text)
	if !ok {
		return d, refuse("--until: found %q; right would be a date such as 2025-09-30, of the years 1980 to 2100", text)
	}
	return d, nil
}

// pageBeside is the record's name with .html in place of what tells its form.
func pageBeside(path string) string {
	if path == stdio {
		return "report.html"
	}
	for {
		end := filepath.Ext(path)
		switch strings.ToLower(end) {
		case ".csv", ".tsv", ".txt", ".gz", ".zip":
			path = strings.TrimSuffix(path, end)
			continue
		}
		return path + ".html"
	}
}

// fitted reads a record and fits each of its labels. An error is of type refused
// where the record is at fault, be it by not being there.
func (p program) fitted(ctx context.Context, path string, opt record.Options) (study.Fit, error) {
	name, from := path, p.in
	if path == stdio {
		name = "standard input"
	} else {
		f, err := os.Open(path)
		if err != nil {
			return study.Fit{}, refuse("%v", err)
		}
		defer f.Close() // only read from
		shown := newReading(f, p.err)
		defer shown.end()
		from = shown
	}
	rec, err := record.Read(ctx, from, name, opt)
	if faults, ok := errors.AsType[record.Errors](err); ok {
		var out refused
		for _, e := range faults {
			out = append(out, e.Error())
		}
		return study.Fit{}, out
	}
	if pathErr := (*os.PathError)(nil); errors.As(err, &pathErr) { // such as reading a directory
		return study.Fit{}, refuse("%v", err)
	}
	if err != nil {
		return study.Fit{}, err
	}
	out := study.Fit{Record: filepath.Base(name), Form: rec.Form, Rows: rec.Rows}
	for _, fleet := range rec.Fleets {
		if err := ctx.Err(); err != nil {
			return study.Fit{}, err
		}
		out.Results = append(out.Results, fit.Fleet(fleet))
	}
	return out, nil
}
