package main

import (
	"math"
	"strconv"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"

	"github.com/urfave/cli/v2"
)

// Bounds of the settings. Those that a site file has too are the same there.
const (
	leastAccuracy, mostAccuracy = 0.0001, 1
	leastTrials, mostTrials     = 1000, 1e10
	mostWorkers                 = 256
)

// runFlags say how to simulate. They are read as words, so that everything that
// is wrong can be said at once.
func runFlags() []cli.Flag {
	return []cli.Flag{
		&cli.StringFlag{Name: "seed", Usage: "`NUMBER` that the random streams start from; the same one gives the same digits", DefaultText: "the site file's"},
		&cli.StringFlag{Name: "accuracy", Usage: "half of the 95 % interval of the loss chance that is good enough, as a `SHARE` of it: \"5 %\" or 0.05", DefaultText: "the site file's"},
		&cli.StringFlag{Name: "max-trials", Usage: "`NUMBER` of trials after which a choice is left as it is", DefaultText: "the site file's"},
		&cli.BoolFlag{Name: "plain", Usage: "simulate life by life without branching: slow, finds no rare loss, serves to check", DisableDefaultText: true},
		&cli.StringFlag{Name: "workers", Usage: "`NUMBER` of processors to use; the digits do not depend on it", DefaultText: "all"},
	}
}

// settings are what the command line says of the run; nil: nothing.
type settings struct {
	seed      *uint64
	accuracy  *float64
	maxTrials *int64
	plain     bool
	workers   int // 0: all processors
}

// settingsOf reads the run's flags.
func settingsOf(c *cli.Context) (settings, refused) {
	s := settings{plain: c.Bool("plain")}
	var faults refused
	if text := c.String("seed"); c.IsSet("seed") {
		seed, err := strconv.ParseUint(text, 10, 63)
		if err != nil {
			faults = append(faults, refuse("--seed: found %s; right would be a whole number from 0 to 2^63 - 1", unit.Quote(text))...)
		}
		s.seed = &seed
	}
	if text := c.String("accuracy"); c.IsSet("accuracy") {
		share, err := unit.Share(text)
		switch {
		case err != nil:
			faults = append(faults, refuse("--accuracy: %v", err)...)
		case share < leastAccuracy || share > mostAccuracy:
			faults = append(faults, refuse("--accuracy: found %s; right would be 0.01 %% to 100 %%", unit.Quote(text))...)
		}
		s.accuracy = &share
	}
	if c.IsSet("max-trials") {
		s.maxTrials = new(int64)
		faults = append(faults, count(c, "max-trials", leastTrials, mostTrials, s.maxTrials)...)
	}
	if c.IsSet("workers") {
		faults = append(faults, count(c, "workers", 1, mostWorkers, &s.workers)...)
	}
	return s, faults
}

// count reads a whole number within bounds. "2e7" and "20 000 000" are one.
func count[N int | int64](c *cli.Context, flag string, least, most float64, into *N) refused {
	text := c.String(flag)
	x, err := strconv.ParseFloat(strings.ReplaceAll(text, " ", ""), 64)
	if err != nil || x != math.Trunc(x) || x < least || x > most {
		return refuse("--%s: found %s; right would be a whole number from %.0f to %.0f", flag, unit.Quote(text), least, most)
	}
	*into = N(x)
	return nil
}

// over is the site file's own settings with those of the command line in their
// place.
func (s settings) over(run site.Run) engine.Options {
	opt := engine.Options{Seed: run.Seed, Accuracy: run.Accuracy, MaxTrials: run.MaxTrials, Plain: s.plain, Workers: s.workers}
	if s.seed != nil {
		opt.Seed = *s.seed
	}
	if s.accuracy != nil {
		opt.Accuracy = *s.accuracy
	}
	if s.maxTrials != nil {
		opt.MaxTrials = *s.maxTrials
	}
	return opt
}
