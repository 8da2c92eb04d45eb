package plan

import (
	"context"
	"fmt"
	"slices"

	"arrayodds/array"
	"arrayodds/array/site/axis"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/sweep"
)

// likeness is the batch_variance that spreading is tried at where the file has none, a
// guess.
const likeness = 1

// tried is the choice as it stands and with something else in it, simulated from the same
// streams.
type tried struct {
	Variance float64 // of the frailty that batches were tried with
	One      estimate.Estimate
	Dealt    estimate.Estimate // from as many batches as there are
	Each     estimate.Estimate // every drive from a batch of its own
	// Gain and MostGain are the chance of one batch ÷ that of Dealt and of Each.
	Gain, MostGain estimate.Estimate

	// Slow and Fast are the rebuild shares at the ends of what is uncertain.
	Slow, Fast           array.Choice
	ShareWords           string
	SlowLoss, FastLoss   estimate.Estimate
	SlowTimes, FastTimes estimate.Estimate // the loss chance there ÷ as it stands
	Rebuilds             bool              // there are such figures
}

// try simulates the choice with its drives from several batches, and with other shares of
// its rebuilds.
func (p Plan) try(ctx context.Context, source *axis.Source, place int, opt engine.Options) (tried, error) {
	out := tried{Variance: p.Choice.Drive.BatchVariance}
	guessed := out.Variance == 0
	if guessed {
		out.Variance = likeness
	}
	alike := p.Choice
	alike.Drive.BatchVariance = out.Variance
	points := []sweep.Point{}
	for _, batches := range []int{1, p.batches(), p.Choice.Drives} {
		c := alike
		c.Batches = batches
		points = append(points, sweep.Point{Site: p.Site, Choice: c})
	}
	if p.Sizing.Shape.Rebuilds() && p.Choice.Care.Restore == nil {
		out.Slow, out.Fast, out.ShareWords = p.shares(source, place)
		out.Rebuilds = true
		for _, c := range []array.Choice{p.Choice, out.Slow, out.Fast} {
			points = append(points, sweep.Point{Site: p.Site, Choice: c})
		}
	}
	series, err := sweep.Run(ctx, points, opt)
	if err != nil {
		return out, err
	}
	for i := range points {
		if err := series.Result(i).Err; err != nil {
			return out, err
		}
	}
	out.One, out.Dealt, out.Each = series.Result(0).LossChance, series.Result(1).LossChance, series.Result(2).LossChance
	out.Gain, out.MostGain = series.Ratio(0, series, 1).Estimate, series.Ratio(0, series, 2).Estimate
	if out.Rebuilds {
		out.SlowLoss, out.FastLoss = series.Result(4).LossChance, series.Result(5).LossChance
		out.SlowTimes, out.FastTimes = series.Ratio(4, series, 3).Estimate, series.Ratio(5, series, 3).Estimate
	}
	return out, nil
}

// batches returns how many batches the first drives are dealt from.
func (p Plan) batches() int { return min(max(1, p.Site.Build.Batches), p.Choice.Drives) }

// shares returns the choice at the ends of the range of its rebuild share, the slower
// first, and how that range was taken.
func (p Plan) shares(source *axis.Source, place int) (slow, fast array.Choice, words string) {
	const key = "care.rebuild_share"
	paths := []string{"choices." + p.Choice.Label + "." + key, fmt.Sprintf("choices.%q.%s", p.Choice.Label, key), key}
	slow, fast, words = p.Choice, p.Choice, "half to twice the share, a guess"
	slow.Care.RebuildShare /= 2
	fast.Care.RebuildShare = min(1, 2*fast.Care.RebuildShare)
	for _, in := range source.Inputs() {
		if !in.Given || !slices.Contains(paths, in.Axis.Path) {
			continue
		}
		low, lowErr := source.With(in.Axis.Set(in.Low))
		high, highErr := source.With(in.Axis.Set(in.High))
		if lowErr == nil && highErr == nil {
			slow.Care.RebuildShare = low.Site.Choices[place].Care.RebuildShare
			fast.Care.RebuildShare = high.Site.Choices[place].Care.RebuildShare
			return slow, fast, "the site file's range of the share"
		}
	}
	return slow, fast, words
}

// rebuildHours returns the length of a rebuild of a choice like this one.
func (p Plan) rebuildHours(c array.Choice) float64 { return p.Site.RebuildHours(c, p.Sizing.Shape) }
