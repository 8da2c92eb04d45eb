package main

import (
	"context"
	"errors"
	"fmt"
	"slices"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/unit"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

// Values of a range where --points says nothing: of one input, and of each of two.
const defaultPoints, defaultPairPoints = 25, 13

func (p program) varyCommand() *cli.Command {
	flags := []cli.Flag{
		&cli.StringFlag{Name: "over", Usage: "the input and its values, as `PATH=VALUES`"},
		&cli.StringFlag{Name: "and", Usage: "a second input, as `PATH=VALUES`: every pair of values is tried"},
		&cli.StringFlag{Name: "points", Usage: "`NUMBER` of values that a range is cut into", DefaultText: fmt.Sprintf("%d, of two inputs %d each", defaultPoints, defaultPairPoints)},
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
		),
		Action: action(p.runVary),
	}
}

func (p program) runVary(a *arguments) error {
	in, err := p.site(a)
	if err != nil {
		return err
	}
	if !a.IsSet("over") && !a.meant("over") {
		a.wrong("no --over given, so there is nothing to vary; see arrayodds vary --help")
	}
	asked := study.Request{Source: in.source, Choices: a.selectedChoices(in.choices()), Options: a.options(in)}
	outs := p.outputs(a, study.Sweep{}, sitePage(in.path, "vary"), in.inputs()...)
	varying := a.varying(asked)
	if err := a.err(); err != nil {
		return err
	}
	return runAndWrite(a.ctx(), p, outs, varying.Request, func(ctx context.Context, asked study.Request) (study.Sweep, error) {
		varying.Request = asked
		return study.Vary(ctx, varying)
	}, print.Vary)
}

// varying returns what --over and the flags beside it ask for.
func (a *arguments) varying(asked study.Request) study.Variation {
	v := study.Variation{Request: asked, Against: -1, Resize: a.Bool("resize")}
	points := defaultPoints
	if a.IsSet("and") {
		points = defaultPairPoints
	}
	points = wholeNumber(a, "points", 2, axis.MaxPoints, points)
	if a.IsSet("target") && a.IsSet("as-safe-as") {
		a.wrong("found --target and --as-safe-as; right would be one of them")
	}
	var all []array.Choice
	if asked.Source != nil {
		all = asked.Source.File().Site.Choices
		v.Axes = a.axes(asked.Source, points)
	}
	if a.IsSet("against") {
		if v.Against = a.choiceLabelled("against", a.String("against"), all); v.Against >= 0 {
			v.Choices = insertSorted(v.Choices, v.Against)
		}
	}
	switch {
	case a.IsSet("as-safe-as"):
		v.Target = &study.Target{As: a.choiceLabelled("as-safe-as", a.String("as-safe-as"), all)}
	case a.IsSet("target"):
		chance, err := unit.Odds(a.String("target"))
		if err != nil {
			a.wrong("--target: %v", err)
		}
		v.Target = &study.Target{Chance: chance}
	}
	if v.Target != nil && a.err() == nil {
		if len(v.Axes) != 1 || !v.Axes[0].Numeric || len(v.Axes[0].Values) < 2 {
			a.wrong("--target and --as-safe-as solve for one input that is a number over a range")
		}
	}
	return v
}

// axes returns the inputs of --over and --and with their values.
func (a *arguments) axes(source *axis.Source, points int) (axes []*axis.Axis) {
	for _, name := range []string{"over", "and"} {
		if !a.IsSet(name) {
			continue
		}
		found, err := source.Axis(a.String(name), points)
		if errs, ok := errors.AsType[site.Errors](err); ok {
			for _, e := range errs {
				a.wrong("--%s: %v", name, e)
			}
			continue
		}
		if err != nil {
			a.wrong("--%s: %v", name, err)
			continue
		}
		axes = append(axes, found)
	}
	if len(axes) == 2 && axes[0].Meets(axes[1]) {
		a.wrong("--and: found %s beside --over %s; right would be another input", axes[1].Path, axes[0].Path)
	}
	return axes
}
