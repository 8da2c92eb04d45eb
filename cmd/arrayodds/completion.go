package main

import (
	"io"
	"strings"

	"arrayodds/array/nearest"
	"arrayodds/array/unit"
	"arrayodds/cmd/arrayodds/completion"

	"github.com/urfave/cli/v2"
)

func (p program) completionCommand() *cli.Command {
	return &cli.Command{
		Name:      "completion",
		Usage:     "what makes a shell complete commands, flags and files",
		UsageText: "arrayodds completion " + strings.Join(completion.Shells, "|"),
		Description: `Prints a script that makes the shell complete commands, their flags and the files
that they take. It goes where the shell looks for such scripts:

   bash  ~/.local/share/bash-completion/completions/arrayodds
   zsh   ~/.zfunc/_arrayodds, where fpath names that folder
   fish  ~/.config/fish/completions/arrayodds.fish

EXAMPLE
   arrayodds completion bash`,
		Action: action(p.runCompletion),
	}
}

func (p program) runCompletion(a *arguments) error {
	shells := strings.Join(completion.Shells, ", ")
	switch {
	case a.NArg() == 0:
		a.wrong("no shell given; right would be one of %s", shells)
	case a.NArg() > 1:
		a.wrong("one shell at a time, found %q; see %s --help", a.Args().Slice(), a.Command.HelpName)
	}
	text, ok := completion.Script(a.App.Commands, a.Args().First())
	if !ok && a.NArg() == 1 {
		a.wrong("found %s as the shell%s; right would be one of %s", unit.Quote(a.Args().First()), nearest.DidYouMean(a.Args().First(), completion.Shells, ""), shells)
	}
	if err := a.err(); err != nil {
		return err
	}
	_, err := io.WriteString(p.out, text)
	return err
}
