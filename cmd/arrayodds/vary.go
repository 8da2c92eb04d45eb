package main

import (
	"arrayodds/array/site/axis"

	"context"
	"errors"
	"fmt"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/charts/lesson"
	"arrayodds/charts/rank"
	"arrayodds/charts/vary"
	"arrayodds/cmd/arrayodds/export"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

// variedFormats, rankedFormats and lessonFormats are the forms in which vary
// writes what it found.
var (
	variedFormats = []format[study.Sweep]{
		{"html", "write the page with the curves to `FILE`", false, vary.Write},
		{"json", "write every figure as JSON to `FILE`", false, export.VariedJSON},
		{"csv", "write one row a choice and value as CSV to `FILE`", false, export.VariedCSV},
	}
	rankedFormats = []format[study.Ranking]{
		{"html", "", false, rank.Write},
		{"json", "", false, export.RankedJSON},
		{"csv", "", false, export.RankedCSV},
	}
	lessonFormats = []format[study.Lesson]{
		{"html", "", false, lesson.Write},
	}
)

// Values of a range where --points says nothing: of one input, and of each of two.
const pointsOfOne, pointsOfTwo = 25, 13

func (p program) vary() *cli.Command {
	flags := []cli.Flag{
		&cli.StringFlag{Name: "over", Usage: "the input and its values, as `PATH=VALUES`"},
		&cli.StringFlag{Name: "and", Usage: "a second input, as `PATH=VALUES`: every pair of values is tried"},
		&cli.StringFlag{Name: "points", Usage: "`NUMBER` of values that a range is cut into", DefaultText: fmt.Sprintf("%d, of two inputs %d each", pointsOfOne, pointsOfTwo)},
		&cli.BoolFlag{Name: "resize", Usage: "at every value give each choice the fewest drives that hold the footage", DisableDefaultText: true},
		&cli.StringFlag{Name: "against", Usage: "hold the others, value by value, against the choice of this `LABEL`"},
		&cli.StringFlag{Name: "target", Usage: "solve for the value at which the loss chance is this `CHANCE`, such as \"1 in 10 000\""},
		&cli.StringFlag{Name: "as-safe-as", Usage: "solve for the value at which the others are as safe as the choice of this `LABEL` as it stands"},
		&cli.BoolFlag{Name: "ranking", Usage: "move every uncertain input from its low to its high, and rank them", DisableDefaultText: true},
		&cli.BoolFlag{Name: "thorough", Usage: "with --ranking: move all at once too, and share out the variance; takes a while", DisableDefaultText: true},
		&cli.BoolFlag{Name: "lesson", Usage: "write a page of three questions on one choice: predict, then see", DisableDefaultText: true},
		&cli.StringSliceFlag{Name: "choice", Usage: "only the choice of this `LABEL`; may be given several times", DefaultText: "all; for --lesson the first with redundancy"},
	}
	return &cli.Command{
		Name:      "vary",
		Usage:     "one or two inputs over a range, and which input matters most",
		UsageText: "arrayodds vary SITE.toml --over PATH=VALUES [flags]\n   arrayodds vary SITE.toml --ranking [flags]\n   arrayodds vary SITE.toml --lesson [flags]",
		Description: `Any number of the site file can be varied. PATH names it as errors and the
report do, things going by their labels; * is all of them. VALUES are a range,
a list, or multiples of what the file has:

   --over "care.response=4 h..168 h"
   --over "drives.12 TB.life.afr=0.5 %..6 %" --and "care.response=x0.25..x4"
   --over "choices.*.drive=8 TB,12 TB,18 TB"

Where the drive or the layout of a choice is varied, its drives are made to fit
the footage. All values are simulated from the same random streams, so that
differences are known better than the figures themselves.

An input that is uncertain is given in the site file with its range, as
{ low = "0.8 %", likely = "1.5 %", high = "3 %" }; --ranking takes a default range
for what has none, and says so.

The page goes to the site file's name with -vary.html, -ranking.html or
-lesson.html (or to --html FILE), a table to standard output.

EXAMPLE
   arrayodds vary terminal.toml --over "care.response=4 h..168 h" --target "1 in 10 000"`,
		Flags:           append(append(flags, formatFlags(variedFormats, "the site file's name with -vary.html, -ranking.html or -lesson.html; vary.html and so on where that is standard input")...), runFlags()...),
		HideHelpCommand: true,
		OnUsageError:    usageError,
		Action:          p.runVary,
	}
}

func (p program) runVary(c *cli.Context) error {
	path, faults := siteArgument(c)
	if path == "" {
		return faults
	}
	faults = append(faults, exclusive(c)...)
	settings, more := settingsOf(c)
	faults = append(faults, more...)
	points := 0
	if c.IsSet("points") {
		faults = append(faults, count(c, "points", 2, axis.MaxPoints, &points)...)
	}
	target := 0.0
	if text := c.String("target"); c.IsSet("target") {
		var err error
		if target, err = unit.Odds(text); err != nil {
			faults = append(faults, refuse("--target: %v", err)...)
		}
	}
	source, _, err := p.open(path)
	if r, ok := errors.AsType[refused](err); ok {
		return append(faults, r...)
	}
	if err != nil {
		return err
	}
	all, more := choicesOf(c, source.File().Site.Choices)
	faults = append(faults, more...)
	a := study.Request{Source: source, Choices: all, Options: settings.over(source.File().Run)}
	switch {
	case c.Bool("ranking"):
		outs := wanted(c, rankedFormats, besides(path, "ranking"))
		if faults = append(faults, misplacedBeside(p, outs, path, source.File())...); faults != nil {
			return faults
		}
		return produce(c.Context, p, outs, a, func(ctx context.Context, a study.Request) (study.Ranking, error) {
			return study.Rank(ctx, a, c.Bool("thorough"))
		}, print.Moved)
	case c.Bool("lesson"):
		outs := wanted(c, lessonFormats, besides(path, "lesson"))
		if faults = append(faults, misplacedBeside(p, outs, path, source.File())...); faults != nil {
			return faults
		}
		if !c.IsSet("choice") {
			a.Choices = []int{toTeach(source.File().Site)}
		}
		return produce(c.Context, p, outs, a, study.Teach, print.Asked)
	}
	outs := wanted(c, variedFormats, besides(path, "vary"))
	faults = append(faults, misplacedBeside(p, outs, path, source.File())...)
	v, goal, more := varyingOf(c, a, points, target)
	if faults = append(faults, more...); faults != nil {
		return faults
	}
	return produce(c.Context, p, outs, a, func(ctx context.Context, a study.Request) (study.Sweep, error) {
		return varied(ctx, v, goal, a.Options)
	}, print.Varied)
}

// exclusive says which flags cannot stand together.
func exclusive(c *cli.Context) (faults refused) {
	var asked []string
	for _, name := range []string{"over", "ranking", "lesson"} {
		if c.IsSet(name) {
			asked = append(asked, "--"+name)
		}
	}
	if len(asked) != 1 {
		found := "none of them"
		if len(asked) > 1 {
			found = strings.Join(asked, " and ")
		}
		faults = append(faults, refuse("found %s; right would be one of --over, --ranking and --lesson; see arrayodds vary --help", found)...)
	}
	only := func(with string, flags ...string) {
		for _, name := range flags {
			if c.IsSet(name) && !c.IsSet(with) && len(asked) == 1 {
				faults = append(faults, refuse("--%s is of use with --%s only", name, with)...)
			}
		}
	}
	only("over", "and", "points", "resize", "against", "target", "as-safe-as")
	only("ranking", "thorough")
	if c.IsSet("lesson") {
		for _, name := range []string{"json", "csv"} {
			if c.IsSet(name) {
				faults = append(faults, refuse("--%s: a lesson is a page and nothing else", name)...)
			}
		}
		if len(c.StringSlice("choice")) > 1 {
			faults = append(faults, refuse("--choice: a lesson is about one choice, found %d", len(c.StringSlice("choice")))...)
		}
	}
	if c.IsSet("target") && c.IsSet("as-safe-as") {
		faults = append(faults, refuse("found --target and --as-safe-as; right would be one of them")...)
	}
	if c.Bool("plain") {
		faults = append(faults, refuse("--plain is of no use with vary: life by life the differences could not be told")...)
	}
	return faults
}

// varyingOf reads what --over and its company ask for.
func varyingOf(c *cli.Context, a study.Request, points int, target float64) (v study.Variation, goal *study.Target, faults refused) {
	v = study.Variation{Request: a, Against: -1, Resize: c.Bool("resize")}
	if points == 0 {
		points = pointsOfOne
		if c.IsSet("and") {
			points = pointsOfTwo
		}
	}
	for _, name := range []string{"over", "and"} {
		if !c.IsSet(name) {
			continue
		}
		axis, err := a.Source.Axis(c.String(name), points)
		var errs site.Errors
		switch {
		case errors.As(err, &errs):
			for _, e := range errs {
				faults = append(faults, refuse("--%s: %v", name, e)...)
			}
		case err != nil:
			faults = append(faults, refuse("--%s: %v", name, err)...)
		default:
			v.Axes = append(v.Axes, axis)
		}
	}
	all := a.Source.File().Site.Choices
	if c.IsSet("against") {
		place, more := choiceOf("against", c.String("against"), all)
		v.Against, faults = place, append(faults, more...)
		if more == nil {
			v.Choices = with(v.Choices, place)
		}
	}
	switch {
	case c.IsSet("as-safe-as"):
		place, more := choiceOf("as-safe-as", c.String("as-safe-as"), all)
		goal, faults = &study.Target{As: place}, append(faults, more...)
	case c.IsSet("target"):
		goal = &study.Target{Chance: target}
	}
	if goal != nil && len(faults) == 0 {
		if len(v.Axes) != 1 || !v.Axes[0].Numeric || len(v.Axes[0].Values) < 2 {
			faults = append(faults, refuse("--target and --as-safe-as solve for one input that is a number over a range")...)
		}
	}
	return v, goal, faults
}

// varied is the curves, and what was solved for.
func varied(ctx context.Context, v study.Variation, goal *study.Target, opt engine.Options) (study.Sweep, error) {
	whole := opt.Progress
	v.Options = opt
	if goal != nil {
		v.Options.Progress = study.PartOf(whole, 0, 0.5)
	}
	found, err := study.Vary(ctx, v)
	if err != nil || goal == nil {
		return found, err
	}
	v.Options.Progress = study.PartOf(whole, 0.5, 1)
	found.BreakEven, err = study.Solve(ctx, v, *goal)
	return found, err
}
