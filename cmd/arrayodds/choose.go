package main

import (
	"context"
	"io"
	"slices"

	"arrayodds/array/site"
	"arrayodds/cmd/arrayodds/console"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/choose"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

func (p program) chooseCommand() *cli.Command {
	return &cli.Command{
		Name:      "choose",
		Usage:     "the cheapest design that meets the goal: drives, layout, spares and options",
		UsageText: "arrayodds choose SITE.toml [flags]",
		Description: `Searches every drive of the file in every layout and number of groups, with and
without hot spares, and with every set of [[options]] (priced changes of any
input), for the cheapest design whose chance of losing footage meets the [goal]
over all that is uncertain, not only as entered. Cost is that of the whole
service life.

The file needs a [goal]. Its [[choices]] are not searched: for the best of them
it is said what money would buy most.

The page goes to the site file's name with -choose.html (or to --html FILE), the
recommendation to standard output; --sheet is one page to hand over. --site
writes the site file with the recommended design and its like in place of its
choices, and with their options for its own values, so that compare can read it
through a pipe, as "-".

EXAMPLE
   arrayodds choose terminal.toml --spares 2 --sheet terminal-sheet.html`,
		Flags: slices.Concat(
			[]cli.Flag{
				&cli.StringFlag{Name: "bays", Usage: "search nothing of more than this `NUMBER` of drives", DefaultText: "the bays of the file's recorder"},
				&cli.StringFlag{Name: "spares", Usage: "`NUMBER` of hot spares that a design has at most", DefaultText: "1"},
				&cli.BoolFlag{Name: "site", Usage: "write the site file with the designs in it and nothing else, without its comments", DisableDefaultText: true},
			},
			outputFlags(choose.Found{}, sitePageText("choose")),
			simulationFlags("seed", "accuracy", "max-trials", "workers"),
			partFlags("choose"),
		),
		Action: action(p.runChoose),
	}
}

func (p program) runChoose(a *arguments) error {
	in, err := p.site(a, site.ChoicesOptional())
	if err != nil {
		return err
	}
	return p.choose(a, in)
}

// choose answers the question of choose about a site that was read.
func (p program) choose(a *arguments, in siteInput) error {
	outs := p.outputs(a, choose.Found{}, sitePage(in.path, "choose"), in.inputs()...)
	for _, o := range outs {
		if a.part == nil && a.Bool("site") && a.IsSet(o.Name) {
			a.wrong("--site and --%s: --site writes the site file and nothing else; right would be one of them", o.Name)
			break
		}
	}
	asked := choose.Request{
		Source:  in.source,
		Bays:    a.read.Bays(),
		Spares:  a.read.MostSpares(),
		Options: a.options(in.file()),
	}
	a.read.CheckGoal(in.file(), in.path)
	if err := a.err(); err != nil {
		return err
	}
	if a.part != nil {
		return runPart(p, a, in, outs, study.Request{Source: in.source, Options: asked.Options}, func(ctx context.Context, shared study.Request) (choose.Found, error) {
			asked.Options = shared.Options
			return choose.Find(ctx, asked)
		})
	}
	bar := console.NewProgress(p.err)
	asked.Options.Progress = bar.Show()
	found, err := choose.Find(a.ctx(), asked)
	bar.Clear()
	if err != nil {
		return asUsageError(err)
	}
	if a.Bool("site") {
		if found.SiteFile == "" {
			return usageErrorf("no design of %s holds the footage: see arrayodds size %s", in.path, in.path)
		}
		_, err := io.WriteString(p.out, found.SiteFile)
		return err
	}
	return writeResult(a.ctx(), p, outs, found, print.Choose)
}
