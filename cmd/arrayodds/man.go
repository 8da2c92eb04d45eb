package main

import (
	"arrayodds/cmd/arrayodds/manual"

	"github.com/urfave/cli/v2"
)

func (p program) manCommand() *cli.Command {
	return &cli.Command{
		Name:      "man",
		Usage:     "the manual page, made of what --help says",
		UsageText: "arrayodds man",
		Description: `Prints the manual page of the program and all its commands, in the language of
man(1): for man -l to show, or for man1/arrayodds.1 in a folder of manual pages.

EXAMPLE
   arrayodds man >arrayodds.1`,
		Action: action(p.runMan),
	}
}

func (p program) runMan(a *arguments) error {
	if a.NArg() > 0 {
		a.wrong("found %q behind man, which takes no arguments", a.Args().Slice())
	}
	if err := a.err(); err != nil {
		return err
	}
	app := a.Lineage()[len(a.Lineage())-2].App
	return manual.Write(p.out, app)
}
