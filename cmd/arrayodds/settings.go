package main

import (
	"slices"

	"github.com/urfave/cli/v2"
)

// simulationFlags returns the flags of these names, which say how to simulate.
// They are read as text, so that everything that is wrong can be said at once.
func simulationFlags(names ...string) []cli.Flag {
	all := []cli.Flag{
		&cli.StringFlag{Name: "seed", Usage: "`NUMBER` that the random streams start from; the same one gives the same digits", DefaultText: "the site file's"},
		&cli.StringFlag{Name: "accuracy", Usage: "half of the 95 % interval of the loss chance that is good enough, as a `SHARE` of it: \"5 %\" or 0.05", DefaultText: "the site file's"},
		&cli.StringFlag{Name: "max-trials", Usage: "`NUMBER` of trials after which a choice is left as it is", DefaultText: "the site file's"},
		&cli.BoolFlag{Name: "plain", Usage: "simulate life by life without branching: slow, finds no rare loss, serves to check", DisableDefaultText: true},
		&cli.StringFlag{Name: "workers", Usage: "`NUMBER` of processors to use; the digits do not depend on it", DefaultText: "all"},
	}
	return slices.DeleteFunc(all, func(f cli.Flag) bool { return !slices.Contains(names, f.Names()[0]) })
}
