package flags

import (
	"strconv"

	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"
)

// maxWorkers bounds the setting that a site file does not have. The bounds of the
// others are those of its keys.
const maxWorkers = 256

// Options returns how to simulate: as the site file has it, with what --seed, --accuracy,
// --max-trials, --blocks, --plain and --workers say in its place.
func (r Reader) Options(f *site.File) engine.Options {
	run := fileOf(f).Run
	opt := engine.Options{Plain: r.Bool("plain"), Seed: run.Seed, Accuracy: run.Accuracy, MaxTrials: run.MaxTrials}
	if text := r.String("seed"); r.IsSet("seed") {
		seed, err := strconv.ParseUint(text, 10, 63)
		if err != nil {
			r.Wrong("--seed: found %s; right would be a whole number from 0 to 2^63 - 1", unit.Quote(text))
		}
		opt.Seed = seed
	}
	if text := r.String("accuracy"); r.IsSet("accuracy") {
		share, err := unit.Share(text)
		key := site.Lookup("run.accuracy")
		low, high := key.Bounds()
		switch {
		case err != nil:
			r.Wrong("--accuracy: %v", err)
		case share < low || share > high:
			r.Wrong("--accuracy: found %s; right would be %s", unit.Quote(text), key.Limits())
		}
		opt.Accuracy = share
	}
	low, high := site.Lookup("run.max_trials").Bounds()
	opt.MaxTrials = WholeNumber(r, "max-trials", low, high, opt.MaxTrials)
	opt.Blocks = r.Blocks()
	opt.Workers = WholeNumber(r, "workers", 1, maxWorkers, 0)
	return opt
}
