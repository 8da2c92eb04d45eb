package main

import (
	"slices"

	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/plan"
	"arrayodds/sim/study"

	"github.com/urfave/cli/v2"
)

func (p program) planCommand() *cli.Command {
	return &cli.Command{
		Name:      "plan",
		Usage:     "sheets to build, hand over and keep one choice: parts, bays, power, settings, checks, calendar",
		UsageText: "arrayodds plan SITE.toml --choice LABEL [flags]",
		Description: `Writes what is needed once a choice is made, a sheet a topic:

   Parts        what to buy, with spares for the shelf, cost, weight and heat
   Bays         the front of the recorder, which drive where, batches spread, and
                what that gains
   Power        watts and volt-amperes, and the UPS for the ride-through
   Settings     what to set, and who gets the alarms
   Acceptance   checks to tick, each with what is predicted and its range, and what
                a difference says
   Calendar     what is due in which year, failures to expect, and the age at which
                drives should be renewed

The page prints on A4, each sheet on paper of its own, and reads on a phone. What the
site file does not say is a line to write on; "arrayodds help site" lists what it can
say, under [build], [recorder] and [[drives]].

The page goes to the site file's name with -plan.html (or to --html FILE), the figures
as JSON to --json FILE, parts and predictions to standard output.

EXAMPLE
   arrayodds plan terminal.toml --choice "8 x 12 TB, double parity"`,
		Flags: slices.Concat(
			[]cli.Flag{
				&cli.StringFlag{Name: "choice", Usage: "the choice of this `LABEL`", DefaultText: "the file's, where it has one only"},
			},
			outputFlags(plan.Plan{}, sitePageText("plan")),
			simulationFlags("seed", "accuracy", "max-trials", "workers"),
		),
		Action: action(p.runPlan),
	}
}

func (p program) runPlan(a *arguments) error {
	in, err := p.site(a)
	if err != nil {
		return err
	}
	choice := a.read.OneChoice(in.file())
	outs := p.outputs(a, plan.Plan{}, sitePage(in.path, "plan"), in.inputs()...)
	asked := study.Request{Source: in.source, Choices: []int{choice}, Options: a.read.Options(in.file())}
	if err := a.err(); err != nil {
		return err
	}
	return runAndWrite(a.ctx(), p, outs, asked, plan.Make, print.Plan)
}
