package main

import (
	"errors"
	"io"

	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

func (p program) compare() *cli.Command {
	return &cli.Command{
		Name:      "compare",
		Usage:     "size, simulate and rank every choice of a site",
		UsageText: "arrayodds compare SITE.toml [flags]",
		Description: `Writes the report, one HTML page that needs no network, beside the site file
(or to --html FILE), and a table to standard output, the least chance of loss
first. Flags may stand before or after SITE.toml.

"-" as SITE.toml is standard input; the report then goes to report.html in the
directory you are in. "-" as a FILE is standard output; the table then goes to
standard error. No two outputs may go to one place. Files are written when all
is done, all of them or none; what was there before stays until then.

In CSV a label that a spreadsheet would run as a formula (it begins with = + -
or @) has an apostrophe put before it.

EXAMPLE
   arrayodds compare terminal.toml --json terminal.json --accuracy "2 %"`,
		Flags:           append(formatFlags(formats, "the site file's name with .html; report.html where that is standard input"), runFlags()...),
		HideHelpCommand: true,
		OnUsageError:    usageError,
		Action:          p.runCompare,
	}
}

func (p program) runCompare(c *cli.Context) error {
	path, faults := siteArgument(c)
	if path == "" {
		return faults
	}
	outs := wanted(c, formats, reportBeside(path))
	faults = append(faults, misplaced(p, outs, path, "the site file")...)
	settings, more := settingsOf(c)
	faults = append(faults, more...)

	file, err := p.read(path)
	if r, ok := errors.AsType[refused](err); ok || err == nil {
		faults = append(faults, r...)
	} else {
		return err
	}
	faults = append(faults, overSchedule(outs, path, file)...)
	if faults != nil {
		return faults
	}

	opt := settings.over(file.Run)
	found, err := p.outcomes(c.Context, file.Site, opt)
	if err != nil {
		return err
	}
	report := study.Comparison{
		Site:        file.Site,
		Seed:        opt.Seed,
		Accuracy:    opt.Accuracy,
		Plain:       opt.Plain,
		Outcomes:    found,
		Assumptions: file.Assumptions,
	}
	standard, err := deliver(c.Context, outs, report)
	if err != nil {
		return err
	}
	return tell(p, outs, standard, func(w io.Writer) error { return print.Ranked(w, report) })
}
