package main

import (
	"context"
	"errors"
	"io"
	"os"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/state"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
	chartsnow "arrayodds/charts/now"
	"arrayodds/cmd/arrayodds/console"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/fleet"
	"arrayodds/sim/now"

	"github.com/urfave/cli/v2"
)

func (p program) nowCommand() *cli.Command {
	return &cli.Command{
		Name:      "now",
		Usage:     "one array in trouble tonight: the risk hour by hour, what to do and what not",
		UsageText: "arrayodds now SITE.toml --state STATE.toml [flags]\narrayodds now --fleet DIR [flags]",
		Description: `Takes the state of one array as it stands, from a file of its own: which drives
are down, how far a rebuild is, when somebody comes. Tells how likely it is to lose
footage until all drives run again and over the next 30 days, hour by hour; what
each thing that can be done tonight takes off that; and what not to do.

--example prints a state file with a comment on every line, to be changed; arrayodds
help state has all its keys. --drill draws a state from the simulated lives instead,
and writes a sheet to practise on: the situation and the questions first, the answers
behind them.

The page is made for a phone. It goes to the site file's name with -now.html (or to
--html FILE), an outline to standard output.

--fleet DIR reads many arrays and lists where to go first, by what a visit tonight
takes off the chance of losing footage within 30 days, and what failures and spares
to expect in the next year over all of them. A state file is one whose name ends in
.state.toml, in DIR or a folder in it. Its site file is the one that it names by
site = "PATH", else NAME.toml beside NAME.state.toml, else site.toml beside it. Only
the head of the list is simulated to --accuracy or to --max-trials of an array. --csv and --xlsx, which only a fleet has, and --json have every
array.

EXAMPLE
   arrayodds now terminal.toml --state tonight.toml`,
		Flags: slices.Concat(
			[]cli.Flag{
				&cli.StringFlag{Name: "state", Usage: "the state of the array, from `FILE`"},
				&cli.StringFlag{Name: "choice", Usage: "the choice of this `LABEL`", DefaultText: "the state file's, or the site's where it has one only"},
				&cli.BoolFlag{Name: "example", Usage: "print a state file to begin with", DisableDefaultText: true},
				&cli.StringFlag{Name: "fleet", Usage: "many arrays: the states and sites in the folder `DIR`"},
				&cli.BoolFlag{Name: "drill", Usage: "draw a state to practise on, and write a sheet for the trainer", DisableDefaultText: true},
			},
			outputFlags(fleet.Result{}, sitePageText("now")+"; of a fleet the folder's"),
			nowFlags(),
		),
		Action: action(p.runNow),
	}
}

// nowFlags returns the flags that say how to simulate; a fleet has no one site file that
// could say it.
func nowFlags() []cli.Flag {
	flags := simulationFlags("seed", "accuracy", "max-trials", "workers")
	ofFleet := map[string]string{"seed": strconv.Itoa(fleet.DefaultSeed), "accuracy": unit.FormatPercent(fleet.DefaultAccuracy, 2), "max-trials": strconv.Itoa(fleet.DefaultMaxTrials)}
	for _, f := range flags {
		if text, ok := f.(*cli.StringFlag); ok && ofFleet[text.Name] != "" {
			text.DefaultText += "; of a fleet " + ofFleet[text.Name]
		}
	}
	return flags
}

func (p program) runNow(a *arguments) error {
	if a.IsSet("fleet") {
		return p.runFleet(a)
	}
	for _, f := range []string{"csv", "xlsx"} {
		if a.IsSet(f) {
			a.wrong("--%s goes with --fleet; one array has --html and --json", f)
		}
	}
	if a.Bool("example") && a.NArg() == 0 {
		return p.printExample(a, "8 x 12 TB, double parity", 8)
	}
	in, err := p.site(a)
	if err != nil {
		return err
	}
	for _, f := range []struct {
		flag  string
		given bool
	}{{"example", a.Bool("example")}, {"drill", a.Bool("drill")}} {
		if f.given && a.IsSet("state") {
			a.wrong("--%s makes a state and --state reads one; right would be one of them", f.flag)
		}
	}
	if a.Bool("example") && a.Bool("drill") {
		a.wrong("--example and --drill both make a state; right would be one of them")
	}
	switch {
	case a.Bool("example"):
		return p.exampleOf(a, in)
	case a.Bool("drill"):
		return p.runDrill(a, in)
	}
	asked := now.Request{Options: a.read.Options(in.file())}
	inputs := in.inputs()
	if f := in.file(); f != nil && f.Unfit == nil {
		label := a.String("choice")
		fine := true
		if a.IsSet("choice") {
			fine = a.read.OneChoice(f) >= 0
		}
		if fine {
			from, err := p.state(a, in, f, strings.TrimSpace(label), &asked)
			if err != nil {
				return err
			}
			inputs = append(inputs, from...)
		}
	} else if !a.IsSet("state") && !a.meant("state") {
		a.wrong("%s", noState)
	}
	outs := p.outputs(a, now.Result{}, sitePage(in.path, "now"), inputs...)
	if err := a.err(); err != nil {
		return err
	}
	return askNow(a.ctx(), p, outs, asked, func(r now.Result) now.Result { return r }, print.Now)
}

// noState is said where a state is wanting.
const noState = "no state given; right would be --state FILE, and arrayodds now --example prints one to change"

// state reads the state file that --state names into what is asked of a site, and notes
// what is wrong with it.
func (p program) state(a *arguments, in siteInput, f *site.File, choice string, asked *now.Request) (inputs []input, err error) {
	path := a.String("state")
	switch {
	case !a.IsSet("state"):
		if !a.meant("state") {
			a.wrong("%s", noState)
		}
		return nil, nil
	case path == "":
		a.wrong("--state needs the name of a file, or - for standard input")
		return nil, nil
	case path == stdio && in.path == stdio:
		a.wrong("--state and the site file both are standard input; right would be a file for one of them")
		return nil, nil
	}
	name, from := path, p.in
	if path == stdio {
		name = "standard input"
	} else {
		file, err := os.Open(path)
		if err != nil {
			a.wrong("--state: %v", err)
			return nil, nil
		}
		defer file.Close() // only read from
		if info, err := file.Stat(); err == nil {
			inputs = append(inputs, input{info, "the state file"})
		}
		from = file
	}
	read, err := state.Read(from, name, f.Site.Choices, choice)
	if errs, ok := errors.AsType[toml.Errors](err); ok {
		return inputs, a.note(siteErrors(errs))
	}
	if pathErr := (*os.PathError)(nil); errors.As(err, &pathErr) { // such as reading a directory
		a.wrong("--state: %v", err)
		return inputs, nil
	}
	if err != nil {
		return inputs, err
	}
	*asked = now.Asked(f, read, asked.Options)
	return inputs, nil
}

// exampleOf prints a state file for a choice of a site.
func (p program) exampleOf(a *arguments, in siteInput) error {
	choice := a.read.ChoiceToTeach(in.file())
	if err := a.err(); err != nil {
		return err
	}
	c := in.file().Site.Choices[choice]
	return p.printExample(a, c.Label, c.Drives)
}

func (p program) printExample(a *arguments, choice string, drives int) error {
	if err := a.err(); err != nil {
		return err
	}
	_, err := io.WriteString(p.out, state.Example(choice, drives))
	return err
}

// runDrill writes a sheet to practise on.
func (p program) runDrill(a *arguments, in siteInput) error {
	choice := a.read.ChoiceToTeach(in.file())
	opt := a.read.Options(in.file())
	outs := p.outputs(a, chartsnow.Drill{}, sitePage(in.path, "drill"), in.inputs()...)
	if err := a.err(); err != nil {
		return err
	}
	asked, err := now.Practice(a.ctx(), in.file(), choice, opt)
	if errors.Is(err, now.ErrQuiet) {
		return usageErrorf("choice %q: %v; right would be a choice with redundancy, a longer service life or another --seed", asked.Choice.Label, err)
	}
	if err != nil {
		return err
	}
	return askNow(a.ctx(), p, outs, asked, func(r now.Result) chartsnow.Drill {
		return chartsnow.Drill{Result: r, File: state.Write(r.Choice.Label, r.State)}
	}, print.Drill)
}

// askNow answers with a progress bar, writes what is made of the answer in every format
// that is asked for, and prints its summary.
func askNow[R any](ctx context.Context, p program, outs []output, asked now.Request, of func(now.Result) R, summary func(io.Writer, R) error) error {
	bar := console.NewProgress(p.err)
	asked.Options.Progress = bar.Show()
	result, err := now.Ask(ctx, asked)
	bar.Clear() // before anything is printed
	if err != nil {
		return asUsageError(err)
	}
	return writeResult(ctx, p, outs, of(result), summary)
}
