package study

import (
	"context"
	"fmt"
	"math"
	"slices"

	"arrayodds/array/elementary"
	"arrayodds/array/site/axis"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/sensitivity"
	"arrayodds/sim/sweep"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

const (
	// shareRows is the number of independent settings of all inputs at once.
	shareRows = 768
	// shareTrials is the trials at each, which tell the loss chance to some per cent:
	// what is lacking is told as noise, and more settings serve better than more
	// trials.
	shareTrials = 128
)

// lawsNote says how the inputs are taken to vary, for the notes of a ranking.
const lawsNote = "For the shares all inputs move at once, independently of each other, each by a triangular law between its low and its high with the peak at its likely value, on a scale of ratios where all three are above 0."

// wordsNote goes with it where some input is no number.
const wordsNote = "Of what is no number the likely is taken half of the time and each end a quarter."

// shares fills in how much of the variance of the logarithm of a choice's loss
// chance comes of each input. note says why it could not be worked out.
func (a Request) shares(ctx context.Context, c int, into *RankedChoice, inputs []axis.Input, progress func(engine.Progress)) (note string, err error) {
	label := into.Choice.Label
	if len(inputs) == 0 {
		return fmt.Sprintf("No input bears on %q, so there are no shares of it.", label), nil
	}
	opt := a.Options
	opt.MaxTrials = min(opt.MaxTrials, shareTrials)
	noise, n, calls := 0.0, 0, 0
	unseen := false
	eval := func(ctx context.Context, rows [][]float64) ([]float64, error) {
		opt.Progress = partOf(progress, float64(calls)/sensitivity.Replicates, float64(calls+1)/sensitivity.Replicates)
		calls++
		settings := make([][]axis.Setting, len(rows))
		for i, row := range rows {
			for k, u := range row {
				settings[i] = append(settings[i], inputs[k].Axis.Set(valueAt(inputs[k], u)))
			}
		}
		files, err := readings(a.Source, settings)
		if err != nil {
			return nil, err
		}
		points := make([]sweep.Point, len(rows))
		for i, f := range files {
			points[i] = sweep.Point{Site: f.Site, Choice: f.Site.Choices[c]}
		}
		series, err := sweep.Run(ctx, points, opt)
		if err != nil {
			return nil, err
		}
		y := make([]float64, len(rows))
		for i := range rows {
			r := series.Result(i)
			if r.Err != nil {
				return nil, r.Err
			}
			if !(r.LossChance.Value > 0) {
				unseen = true
				continue
			}
			y[i] = math.Log10(r.LossChance.Value)
			noise += r.LossChance.RelativeError * r.LossChance.RelativeError
			n++
		}
		return y, nil
	}
	found, err := sensitivity.Indices(ctx, len(inputs), shareRows, a.Options.Seed, eval)
	if err != nil {
		return "", err
	}
	if unseen {
		return fmt.Sprintf("At some settings of its inputs %q loses nothing, so that its loss chance has no logarithm and there are no shares of it.", label), nil
	}
	for k := range into.Inputs {
		first, total := shareOf(found.First[k]), shareOf(found.Total[k])
		into.Inputs[k].First, into.Inputs[k].Total = &first, &total
	}
	slices.Sort(found.Values)
	at := func(q float64) float64 {
		return elementary.Pow(10, stat.Quantile(q, stat.Empirical, found.Values, nil))
	}
	into.Spread = estimate.Estimate{Value: at(0.5), Low: at(0.05), High: at(0.95)}
	if v := found.Variance.Value; v > 0 && n > 0 {
		into.Noise = noise / float64(n) / (math.Ln10 * math.Ln10) / v
	}
	return "", nil
}

func shareOf(e sensitivity.Estimate) estimate.Estimate {
	return estimate.FromInterval(e.Value, e.Low, e.High)
}

// valueAt returns the value of an input at quantile u of its law.
func valueAt(in axis.Input, u float64) axis.Value {
	low, likely, high := in.Low.Shown, in.Likely.Shown, in.High.Shown
	if !in.Axis.Numeric {
		switch {
		case u < 0.25:
			return in.Low
		case u < 0.75:
			return in.Likely
		}
		return in.High
	}
	byRatio := low > 0
	if byRatio {
		low, likely, high = math.Log(low), math.Log(likely), math.Log(high)
	}
	likely = math.Min(math.Max(likely, low), high)
	x := distuv.NewTriangle(low, high, likely, nil).Quantile(u)
	if byRatio {
		x = elementary.Exp(x)
	}
	return in.Axis.At(x)
}
