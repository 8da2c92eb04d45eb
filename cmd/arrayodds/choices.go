package main

import (
	"github.com/urfave/cli/v2"
)

// choicesFlag returns the flag that [flags.Reader.Choices] reads.
func choicesFlag() cli.Flag {
	return &cli.StringSliceFlag{Name: "choice", Usage: "only the choice of this `LABEL`; may be given several times", DefaultText: "all"}
}
