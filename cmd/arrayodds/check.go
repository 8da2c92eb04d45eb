package main

import (
	"arrayodds/array"
	"arrayodds/cmd/arrayodds/print"

	"github.com/urfave/cli/v2"
)

func (p program) checkCommand() *cli.Command {
	return &cli.Command{
		Name:      "check",
		Usage:     "read and judge a site file, simulate nothing",
		UsageText: "arrayodds check SITE.toml",
		Description: `Reads the whole file and lists everything that is wrong with it, each with
its line, on standard error. Where nothing is, it says what the cameras need,
what each choice is and how many days of each camera group it holds, and what
was taken for what the file leaves out. Nothing is simulated and no file is
written. SITE.toml may be "-" for standard input.

EXAMPLE
   arrayodds check terminal.toml`,
		Action: action(p.runCheck),
	}
}

func (p program) runCheck(a *arguments) error {
	in, err := p.site(a)
	if err != nil {
		return err
	}
	if err := a.err(); err != nil {
		return err
	}
	sizes, err := sizeChoices(in.file().Site)
	if err != nil {
		return err
	}
	return print.Check(p.out, in.file(), sizes)
}

// sizeChoices returns the size of every choice of a site, in its order.
func sizeChoices(s array.Site) ([]array.Sizing, error) {
	sizes := make([]array.Sizing, len(s.Choices))
	for i, c := range s.Choices {
		var err error
		if sizes[i], err = s.Size(c); err != nil {
			return nil, err
		}
	}
	return sizes, nil
}
