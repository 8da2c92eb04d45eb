package main

import (
	"context"
	"slices"

	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

func (p program) rankCommand() *cli.Command {
	return &cli.Command{
		Name:      "rank",
		Usage:     "which input matters most: each uncertain one moved from its low to its high",
		UsageText: "arrayodds rank SITE.toml [flags]",
		Description: `Moves each uncertain input of the site from its low to its high, the others as
likely, and sorts the inputs by how far that moves the chance of losing footage.
The first is the figure to go and find out.

An input that is uncertain is given in the site file with its range, as
{ low = "0.8 %", likely = "1.5 %", high = "3 %" }. What has none gets a default
range, and the table says so. With --thorough all inputs are moved at once too,
and the variance of the chance is shared out among them.

The page goes to the site file's name with -rank.html (or to --html FILE), a table
to standard output.

EXAMPLE
   arrayodds rank terminal.toml --choice "8 x 12 TB, double parity" --thorough`,
		Flags: slices.Concat(
			[]cli.Flag{
				&cli.BoolFlag{Name: "thorough", Usage: "move all inputs at once too, and share out the variance; takes a while", DisableDefaultText: true},
				choicesFlag(),
			},
			outputFlags(study.Ranking{}, sitePageText("rank")),
			simulationFlags("seed", "accuracy", "max-trials", "workers"),
			partFlags("rank"),
		),
		Action: action(p.runRank),
	}
}

func (p program) runRank(a *arguments) error {
	in, err := p.site(a)
	if err != nil {
		return err
	}
	return p.rank(a, in)
}

// rank answers the question of rank about a site that was read.
func (p program) rank(a *arguments, in siteInput) error {
	asked := study.Request{Source: in.source, Choices: a.read.Choices(in.file()), Options: a.options(in.file())}
	outs := p.outputs(a, study.Ranking{}, sitePage(in.path, "rank"), in.inputs()...)
	if err := a.err(); err != nil {
		return err
	}
	compute := func(ctx context.Context, asked study.Request) (study.Ranking, error) {
		return study.Rank(ctx, asked, a.read.Bool("thorough"))
	}
	if a.part != nil {
		return runPart(p, a, in, outs, asked, compute)
	}
	return runAndWrite(a.ctx(), p, outs, asked, compute, print.Rank)
}
