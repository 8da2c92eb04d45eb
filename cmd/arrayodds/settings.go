package main

import (
	"slices"
	"strconv"

	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"

	"github.com/urfave/cli/v2"
)

// maxWorkers bounds the setting that a site file does not have. The bounds of the
// others are those of its keys.
const maxWorkers = 256

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

// options returns how to simulate: as the site file has it, with what the command
// line says in its place. Flags that a command does not have are as not given.
func (a *arguments) options(in siteInput) engine.Options {
	opt := engine.Options{Plain: a.Bool("plain")}
	if f := in.file(); f != nil {
		opt.Seed, opt.Accuracy, opt.MaxTrials = f.Run.Seed, f.Run.Accuracy, f.Run.MaxTrials
	}
	if text := a.String("seed"); a.IsSet("seed") {
		seed, err := strconv.ParseUint(text, 10, 63)
		if err != nil {
			a.wrong("--seed: found %s; right would be a whole number from 0 to 2^63 - 1", unit.Quote(text))
		}
		opt.Seed = seed
	}
	if text := a.String("accuracy"); a.IsSet("accuracy") {
		share, err := unit.Share(text)
		key := site.Lookup("run.accuracy")
		low, high := key.Bounds()
		switch {
		case err != nil:
			a.wrong("--accuracy: %v", err)
		case share < low || share > high:
			a.wrong("--accuracy: found %s; right would be %s", unit.Quote(text), key.Limits())
		}
		opt.Accuracy = share
	}
	low, high := site.Lookup("run.max_trials").Bounds()
	opt.MaxTrials = wholeNumber(a, "max-trials", low, high, opt.MaxTrials)
	opt.Workers = wholeNumber(a, "workers", 1, maxWorkers, 0)
	return opt
}
