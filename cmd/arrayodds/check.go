package main

import (
	"errors"

	"arrayodds/array"
	"arrayodds/cmd/arrayodds/print"

	"github.com/urfave/cli/v2"
)

func (p program) check() *cli.Command {
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
		HideHelpCommand: true,
		OnUsageError:    usageError,
		Action: func(c *cli.Context) error {
			path, faults := siteArgument(c)
			if path == "" {
				return faults
			}
			file, err := p.read(path)
			if r, ok := errors.AsType[refused](err); ok || err == nil && faults != nil {
				return append(faults, r...)
			}
			if err != nil {
				return err
			}
			sizes, err := sizesOf(file.Site)
			if err != nil {
				return err
			}
			return print.Judged(p.out, file, sizes)
		},
	}
}

// sizesOf works out every choice of a site that was read without error.
func sizesOf(s array.Site) ([]array.Sizing, error) {
	sizes := make([]array.Sizing, len(s.Choices))
	for i, c := range s.Choices {
		var err error
		if sizes[i], err = s.Size(c); err != nil {
			return nil, err
		}
	}
	return sizes, nil
}
