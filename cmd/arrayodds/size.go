package main

import (
	"bytes"
	"fmt"
	"slices"

	"arrayodds/array/site"
	"arrayodds/array/site/rewrite"
	"arrayodds/cmd/arrayodds/print"
	"arrayodds/sim/sizing"

	"github.com/urfave/cli/v2"
)

func (p program) sizeCommand() *cli.Command {
	return &cli.Command{
		Name:      "size",
		Usage:     "find the fewest drives that hold the footage, simulate nothing",
		UsageText: "arrayodds size SITE.toml [flags]",
		Description: `Goes from the cameras to the rate that they write at, to terabytes, and for
every drive of the file and every layout to the fewest drives that hold them;
says what they cost and draw, how full the network and how far the drives are
worn, and what one day, one camera or 10 % more would take. Groups that are wider
than is customary are offered and say so. Of a layout that does not fit it says
how many days it would hold, and which drive, how many bays or what bit rate
would do. The file needs no [[choices]]: those that it has are not looked at, save
for erasure codes that they name. At the end stand choices to paste into it, of
each layout the one that costs least.

A page is written only where --html asks for one: the tables are there at once.
--site writes the whole site file with these choices in place of its own, and
nothing else, so that compare can read it through a pipe, as "-".

SITE.toml may be "-" for standard input. Nothing is simulated.

EXAMPLE
   arrayodds size terminal.toml --bays 12`,
		Flags: slices.Concat([]cli.Flag{
			&cli.StringFlag{Name: "bays", Usage: "suggest nothing of more than this `NUMBER` of drives and hot spares", DefaultText: "the bays of the file's recorder; no limit where it gives none"},
			&cli.StringFlag{Name: "spares", Usage: "this `NUMBER` of hot spares beside the drives", DefaultText: "0"},
			&cli.BoolFlag{Name: "site", Usage: "write the site file with the suggested choices, not the tables", DisableDefaultText: true},
		}, outputFlags(sizing.Suggestions{}, "")),
		Action: action(p.runSize),
	}
}

func (p program) runSize(a *arguments) error {
	in, err := p.site(a, site.ChoicesOptional())
	if err != nil {
		return err
	}
	bays := a.read.Bays()
	outs := p.outputs(a, sizing.Suggestions{}, "", in.inputs()...)
	if a.Bool("site") && len(outs) > 0 {
		a.wrong("--site and --%s: --site writes the site file and nothing else; right would be one of them", outs[0].Name)
	}
	spares := a.read.SparesBeside()
	file := in.file()
	a.read.CheckSizing(file, in.path, bays)
	if err := a.err(); err != nil {
		return err
	}
	found := sizing.Suggest(file, bays, spares)
	if !a.Bool("site") {
		return writeResult(a.ctx(), p, outs, found, print.Size)
	}
	if len(found.Choices) == 0 {
		return usageErrorf("no drive of %s fits: see arrayodds size %s", in.path, in.path)
	}
	fresh := rewrite.WithChoices(in.text, file.Site.Cameras, found.Choices)
	// What is written must be read again, labels and bays and all.
	if _, err := site.Read(bytes.NewReader(fresh), "the site file with the suggestions"); err != nil {
		return fmt.Errorf("the suggestions do not go into %s: %w", in.path, err)
	}
	_, err = p.out.Write(fresh)
	return err
}
