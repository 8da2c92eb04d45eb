package main

import (
	"slices"

	"arrayodds/array/nearest"
	"arrayodds/array/unit"
	"arrayodds/cmd/arrayodds/licences"

	"github.com/urfave/cli/v2"
)

func (p program) licencesCommand() *cli.Command {
	return &cli.Command{
		Name:      "licences",
		Usage:     "the licences of all that is in the program",
		UsageText: "arrayodds licences [NAME]",
		Description: `Lists what the program is made of, with the licence of each: the modules that it is
linked with, Go's own library and runtime, the script that draws the charts. In
"program" is what runs here, in "desk" what a desk page has in it, in "charts" what
every page with charts has. The texts of the licences and notices follow, each once;
with NAME, such as echarts, those of one alone. Pages carry the notices that they owe.

EXAMPLE
   arrayodds licences echarts`,
		Action: action(p.runLicences),
	}
}

func (p program) runLicences(a *arguments) error {
	all, err := licences.All()
	if err != nil {
		return err
	}
	if a.NArg() > 1 {
		a.wrong("one name at a time, found %q; see %s --help", a.Args().Slice(), a.Command.HelpName)
	} else if a.NArg() == 1 {
		name := a.Args().First()
		var names []string
		for _, w := range all {
			names = append(names, w.Name)
		}
		if i := slices.Index(names, name); i >= 0 {
			all = all[i : i+1]
		} else {
			a.wrong("nothing in the program is called %s%s; see arrayodds licences", unit.Quote(name), nearest.DidYouMean(name, names, ""))
		}
	}
	if err := a.err(); err != nil {
		return err
	}
	return licences.Write(p.out, all)
}
