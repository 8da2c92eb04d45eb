package main

import (
	"bytes"
	"fmt"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/cmd/arrayodds/print"

	"github.com/urfave/cli/v2"
)

func (p program) sizeCommand() *cli.Command {
	return &cli.Command{
		Name:      "size",
		Usage:     "find the fewest drives that hold the footage, simulate nothing",
		UsageText: "arrayodds size SITE.toml [flags]",
		Description: `Goes from the cameras to the rate that they write at, to terabytes, and for
every drive of the file and every layout to the fewest drives that hold them;
says what they cost and draw, how full the network is, and what one day, one
camera or 10 % more would take. The file needs no [[choices]]: those that it has
are not looked at, save for erasure codes that they name. At the end stand
choices to paste into it, of each layout the one that costs least.

--site writes the whole site file with these choices in place of its own, and
nothing else, so that compare can read it through a pipe, as "-".

SITE.toml may be "-" for standard input. Nothing is simulated.

EXAMPLE
   arrayodds size terminal.toml --bays 12`,
		Flags: []cli.Flag{
			&cli.StringFlag{Name: "bays", Usage: "suggest nothing of more than this `NUMBER` of drives", DefaultText: "the bays of the file's recorder; no limit where it gives none"},
			&cli.BoolFlag{Name: "site", Usage: "write the site file with the suggested choices, not the tables", DisableDefaultText: true},
		},
		Action: action(p.runSize),
	}
}

func (p program) runSize(a *arguments) error {
	in, err := p.site(a, site.ChoicesOptional())
	if err != nil {
		return err
	}
	bays := wholeNumber(a, "bays", 1, array.MaxDrives, 0)
	file := in.file()
	if file != nil {
		if len(file.Site.Cameras) == 0 {
			a.wrong("%s has no cameras, so there is nothing to size for; give them under [[cameras]], or a schedule", in.path)
		}
		if r := file.Recorder; r != nil && r.Bays > 0 && bays > r.Bays {
			a.wrong("--bays %d: the recorder of %s has %d; change its bays to look further", bays, in.path, r.Bays)
		}
	}
	if err := a.err(); err != nil {
		return err
	}
	found := fitDrives(file, bays)
	if !a.Bool("site") {
		return print.Size(p.out, found)
	}
	if len(found.Suggested) == 0 {
		return usageErrorf("no drive of %s fits: see arrayodds size %s", in.path, in.path)
	}
	fresh := site.WithChoices(in.text, file, found.Suggested)
	// What is written must be read again, labels and bays and all.
	if _, err := site.Read(bytes.NewReader(fresh), "the site file with the suggestions"); err != nil {
		return fmt.Errorf("the suggestions do not go into %s: %w", in.path, err)
	}
	_, err = p.out.Write(fresh)
	return err
}

// fitDrives fits every drive of a site in every layout, in at most so many bays.
// 0 stands for the bays of the recorder.
func fitDrives(f *site.File, bays int) print.Sized {
	found := print.Sized{Site: f.Site, Recorder: f.Recorder, Bays: bays}
	if bays == 0 && f.Recorder != nil {
		found.Bays = f.Recorder.Bays
	}
	var models []array.Drive
	for _, d := range f.Site.Drives {
		if d.Transfer < f.Care.RebuildFloor {
			found.LeftOut = append(found.LeftOut, fmt.Sprintf("%s is left out: at %s it is slower than the rebuild_floor of %s.", d.Label, unit.FormatRate(d.Transfer), unit.FormatRate(f.Care.RebuildFloor)))
			continue
		}
		models = append(models, d)
	}
	found.All = f.Site.Fit(models, array.LayoutsToFit(f.Site.Choices), f.Care, f.Recorder, found.Bays)
	for _, best := range array.Cheapest(found.All) {
		choice := best.Choice
		choice.Label = suggestionLabel(choice)
		found.Suggested = append(found.Suggested, choice)
	}
	return found
}

// suggestionLabel returns a label that says what a suggestion is: "RAID 60, 2 x 6 x
// 12 TB". There is one suggestion for each layout, so that no two are the same.
func suggestionLabel(c array.Choice) string {
	const room = 100 // of the drive's label, so that the whole is short enough
	drive := []rune(c.Drive.Label)
	if len(drive) > room {
		drive = append(drive[:room-1], '…')
	}
	if c.Groups > 1 {
		return fmt.Sprintf("%s, %d x %d x %s", c.Layout, c.Groups, c.Drives/c.Groups, string(drive))
	}
	return fmt.Sprintf("%s, %d x %s", c.Layout, c.Drives, string(drive))
}
