package main

import (
	"context"
	"slices"

	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

func (p program) compareCommand() *cli.Command {
	return &cli.Command{
		Name:      "compare",
		Usage:     "size, simulate and rank every choice of a site",
		UsageText: "arrayodds compare SITE.toml [flags]",
		Description: `Writes the report, one HTML page that needs no network, beside the site file
(or to --html FILE), and a table to standard output, the least chance of loss
first. Flags may stand before or after SITE.toml.

"-" as SITE.toml is standard input; the report then goes to report.html in the
directory you are in. "-" as a FILE is standard output; the table then goes to
standard error. A flag with a FILE may be given several times, for several
files; no two outputs may go to one place. Files are written when all is done,
all of them or none; what was there before stays until then. A link stays a
link, and what leads to a stream (/dev/stdout, a pipe) is written to, not
replaced.

--sheet FILE writes one A4 page to hand to a customer: the question, the
recommendation, a picture of up to eight choices, the price, what matters most
of what was assumed, the cautions, and a place for date and signature. It is
HTML to print; what a [document] in the site file gives stands in its head.

In CSV a label that a spreadsheet would run as a formula (it begins with = + -
or @) has an apostrophe put before it.

EXAMPLE
   arrayodds compare terminal.toml --json terminal.json --accuracy "2 %"`,
		Flags: slices.Concat(
			outputFlags(study.Comparison{}, sitePageText("")),
			simulationFlags("seed", "accuracy", "max-trials", "plain", "workers"),
			partFlags(""),
		),
		Action: action(p.runCompare),
	}
}

func (p program) runCompare(a *arguments) error {
	in, err := p.site(a)
	if err != nil {
		return err
	}
	return p.compare(a, in)
}

// compare answers the question of compare about a site that was read.
func (p program) compare(a *arguments, in siteInput) error {
	outs := p.outputs(a, study.Comparison{}, sitePage(in.path, ""), in.inputs()...)
	asked := study.Request{Source: in.source, Choices: a.read.Choices(in.file()), Options: a.options(in.file())}
	if a.part != nil && a.part.Of > asked.Options.Blocks && asked.Options.Blocks > 0 {
		a.wrong("--part: found %d parts of %d blocks; right would be at most as many as blocks", a.part.Of, asked.Options.Blocks)
	}
	if err := a.err(); err != nil {
		return err
	}
	compute := func(ctx context.Context, asked study.Request) (study.Comparison, error) {
		return study.Compare(ctx, asked, p.simulate)
	}
	if a.part != nil {
		return runPart(p, a, in, outs, asked, compute)
	}
	return runAndWrite(a.ctx(), p, outs, asked, compute, print.Compare)
}
