package main

import (
	"context"
	"fmt"
	"slices"

	"arrayodds/cmd/arrayodds/flags"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

func (p program) varyCommand() *cli.Command {
	flags := []cli.Flag{
		&cli.StringFlag{Name: "over", Usage: "the input and its values, as `PATH=VALUES`"},
		&cli.StringFlag{Name: "and", Usage: "a second input, as `PATH=VALUES`: every pair of values is tried"},
		&cli.StringFlag{Name: "points", Usage: "`NUMBER` of values that a range is cut into", DefaultText: fmt.Sprintf("%d, of two inputs %d each", flags.Points, flags.PairPoints)},
		&cli.BoolFlag{Name: "resize", Usage: "at every value give each choice the fewest drives that hold the footage", DisableDefaultText: true},
		&cli.StringFlag{Name: "against", Usage: "hold the others, value by value, against the choice of this `LABEL`"},
		&cli.StringFlag{Name: "target", Usage: "solve for the value at which the loss chance is this `CHANCE`, such as \"1 in 10 000\""},
		&cli.StringFlag{Name: "as-safe-as", Usage: "solve for the value at which the others are as safe as the choice of this `LABEL` as it stands"},
		choicesFlag(),
	}
	return &cli.Command{
		Name:      "vary",
		Usage:     "one or two inputs over a range, and the value that meets a goal",
		UsageText: "arrayodds vary SITE.toml --over PATH=VALUES [flags]",
		Description: `Any number of the site file can be varied. PATH names it as errors and the
report do, things going by their labels; * is all of them. VALUES are a range,
a list, or multiples of what the file has:

   --over "care.response=4 h..168 h"
   --over "drives.12 TB.life.afr=0.5 %..6 %" --and "care.response=x0.25..x4"
   --over "choices.*.drive=8 TB,12 TB,18 TB"

Where the drive or the layout of a choice is varied, its drives are made to fit
the footage. All values are simulated from the same random streams, so that
differences are known better than the figures themselves.

The page goes to the site file's name with -vary.html (or to --html FILE), a table
to standard output.

EXAMPLE
   arrayodds vary terminal.toml --over "care.response=4 h..168 h" --target "1 in 10 000"`,
		Flags: slices.Concat(
			flags,
			outputFlags(study.Sweep{}, sitePageText("vary")),
			simulationFlags("seed", "accuracy", "max-trials", "workers"),
			partFlags("vary"),
		),
		Action: action(p.runVary),
	}
}

func (p program) runVary(a *arguments) error {
	in, err := p.site(a)
	if err != nil {
		return err
	}
	return p.vary(a, in)
}

// vary answers the question of vary about a site that was read.
func (p program) vary(a *arguments, in siteInput) error {
	if !a.read.IsSet("over") && !a.meant("over") {
		a.wrong("no --over given, so there is nothing to vary; see arrayodds vary --help")
	}
	asked := study.Request{Source: in.source, Choices: a.read.Choices(in.file()), Options: a.options(in.file())}
	outs := p.outputs(a, study.Sweep{}, sitePage(in.path, "vary"), in.inputs()...)
	varying := a.read.Variation(asked)
	if err := a.err(); err != nil {
		return err
	}
	compute := func(ctx context.Context, asked study.Request) (study.Sweep, error) {
		varying.Request = asked
		return study.Vary(ctx, varying)
	}
	if a.part != nil {
		return runPart(p, a, in, outs, varying.Request, compute)
	}
	return runAndWrite(a.ctx(), p, outs, varying.Request, compute, print.Vary)
}
