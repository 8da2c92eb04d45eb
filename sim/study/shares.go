package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"

	"arrayodds/array/elementary"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/sim/divide"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/sensitivity"
	"arrayodds/sim/sweep"

	"gonum.org/v1/gonum/stat"
)

const (
	// A polynomial is fitted to leastRows settings or to three times as many as there
	// are terms up to the fourth degree in each input and the second in pairs of
	// them, up to about mostRows, and is good for shares where it leaves no more
	// than mostUnexplained of the variance.
	leastRows       = 512
	mostRows        = 2048
	mostUnexplained = 0.02
	// shareRows is the number of independent settings of all inputs at once where
	// no polynomial will do.
	shareRows = 768
	// shareTrials is the trials at each, which tell the loss chance to some per cent:
	// what is lacking is told as noise, and more settings serve better than more
	// trials.
	shareTrials = 128
	// moreShareTrials is the trials where so few leave too much.
	moreShareTrials = 1024
)

// shares fills in how much of the variance of the logarithm of a choice's loss
// chance comes of each input. note says why it could not be worked out.
func (a Request) shares(ctx context.Context, c int, into *RankedChoice, inputs []axis.Input, progress func(engine.Progress)) (note string, err error) {
	label := into.Choice.Label
	if len(inputs) == 0 {
		return fmt.Sprintf("No input bears on %q, so there are no shares of it.", label), nil
	}
	found, s, err := a.indices(ctx, c, inputs, progress)
	if err != nil {
		return "", err
	}
	if s.unseen {
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
	if v := found.Variance.Value; v > 0 && s.points > 0 {
		into.Noise = s.noise / float64(s.points) / (math.Ln10 * math.Ln10) / v
	}
	return "", nil
}

// indices works out the shares: by a polynomial, which serves nearly always; by one from
// more trials at each setting, where noise may be what it leaves; and by sampling, which
// asks nothing of the loss chance and takes many times the settings.
func (a Request) indices(ctx context.Context, c int, inputs []axis.Input, progress func(engine.Progress)) (sensitivity.Result, *sharing, error) {
	a.Options = a.Options.Undivided()
	for i, trials := range []int64{shareTrials, moreShareTrials} {
		s := &sharing{Request: a, choice: c, inputs: inputs}
		s.Options.Accuracy = -1 // every setting has the same trials
		s.Options.MaxTrials = min(a.Options.MaxTrials, trials)
		s.Options.Progress = engine.PartOf(progress, 0.2*float64(i), 0.2+0.3*float64(i))
		// Forced branching tells rare losses and common ones, so that no pilot is needed.
		s.Options.Branching = !s.Options.Plain
		found, err := sensitivity.Polynomial(ctx, s.coordinates(), polynomialRows(len(inputs)), a.Options.Seed, s.logarithms)
		if busy := (*engine.BusyError)(nil); errors.As(err, &busy) {
			break // plain simulation may come to its end
		}
		if err != nil || s.unseen || found.Unexplained <= mostUnexplained {
			return found, s, err
		}
	}
	s := &sharing{Request: a, choice: c, inputs: inputs}
	s.Options.MaxTrials = min(a.Options.MaxTrials, shareTrials)
	s.Options.Progress = engine.PartOf(progress, 0.5, 1)
	found, err := sensitivity.Indices(ctx, len(inputs), shareRows, a.Options.Seed, s.logarithms)
	return found, s, err
}

// sharing is what shares of variance of a choice are worked out from.
type sharing struct {
	Request
	choice int
	inputs []axis.Input

	calls  int     // of logarithms
	noise  float64 // squares of the relative errors of the loss chances
	points int     // of which there are so many
	unseen bool    // a setting is without loss
}

// streamsApart sets the seeds of calls apart: the golden ratio in 64 bits, any odd number
// would do.
const streamsApart = 0x9e3779b97f4a7c15

// logarithms returns the logarithm, to base 10, of the loss chance at quantiles of the
// inputs. Settings of one call are simulated from common random streams, and those of
// another from others: so what a few lives happen to say of an input differs from call
// to call, where the intervals of shares take account of it.
func (s *sharing) logarithms(ctx context.Context, rows [][]float64) ([]float64, error) {
	settings := make([][]axis.Setting, len(rows))
	for i, row := range rows {
		for k, u := range row {
			settings[i] = append(settings[i], s.inputs[k].Axis.Set(s.inputs[k].At(u)))
		}
	}
	files, err := readings(s.Source, settings)
	if err != nil {
		return nil, err
	}
	points := make([]sweep.Point, len(rows))
	for i, f := range files {
		points[i] = sweep.Point{Site: f.Site, Choice: f.Site.Choices[s.choice]}
	}
	opt := s.Options
	opt.Seed ^= streamsApart * uint64(s.calls+1)
	opt.Progress = engine.PartOf(s.Options.Progress, float64(s.calls)/sensitivity.Replicates, float64(s.calls+1)/sensitivity.Replicates)
	s.calls++
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
			s.unseen = true
			continue
		}
		y[i] = math.Log10(r.LossChance.Value)
		s.noise += r.LossChance.RelativeError * r.LossChance.RelativeError
		s.points++
	}
	return y, nil
}

// coordinates returns the inputs on the scales on which they vary.
func (s *sharing) coordinates() (all []sensitivity.Coordinate) {
	for _, in := range s.inputs {
		all = append(all, func(u float64) float64 { return coordinate(in, in.At(u), u) })
	}
	return all
}

func shareOf(e sensitivity.Estimate) estimate.Estimate {
	return estimate.FromInterval(e.Value, e.Low, e.High)
}

// polynomialRows returns the settings for a polynomial in that many inputs.
func polynomialRows(inputs int) int {
	return max(leastRows, min(mostRows, 3*(1+4*inputs+inputs*(inputs-1)/2)), 4*(1+inputs))
}

// foundShares is what a part has of the shares of variance of a choice, as it is coded.
type foundShares struct {
	Inputs       []string // paths of those that were taken to bear on it
	First, Total []estimate.Estimate
	Spread       estimate.Estimate
	Noise        float64
	Note         string
}

// bearingBlocks is the blocks, at most, by which a part tells which inputs bear on a choice.
// Where all blocks tell otherwise, what it found is not used.
const bearingBlocks = 16

// rankPart looks for what no part of a ranking may pass over, and works out the shares of
// variance of the choices in the share of the work.
func (a Request) rankPart(ctx context.Context, inputs []axis.Input, files []*site.File, thorough bool) error {
	own, ledger := a.Source.File(), a.Options.Ledger
	for k, c := range a.Choices {
		into := RankedChoice{Choice: own.Site.Choices[c]}
		points := []sweep.Point{{Site: own.Site, Choice: into.Choice}}
		for i, f := range files {
			if err := unfitEnd(inputs[i/2], f, c, into.Choice.Label); err != nil {
				return err
			}
			points = append(points, sweep.Point{Site: f.Site, Choice: f.Site.Choices[c]})
		}
		if !thorough || !ledger.Share().Has(k) {
			continue
		}
		opt := a.Options.Undivided()
		opt.Blocks, opt.Progress = min(bearingBlocks, a.Options.Blocks), nil
		series, err := sweep.Run(ctx, points, opt)
		if err != nil {
			return err
		}
		ranking, bearing, err := ranked(series, 0, into.Choice.Label, inputs, files, c)
		if err != nil {
			return err
		}
		into.Inputs = ranking.Inputs
		note, err := a.shares(ctx, c, &into, bearing, a.Options.Progress)
		if err != nil {
			return err
		}
		out := foundShares{Inputs: paths(bearing), Spread: into.Spread, Noise: into.Noise, Note: note}
		for _, in := range into.Inputs {
			if in.First != nil {
				out.First, out.Total = append(out.First, *in.First), append(out.Total, *in.Total)
			}
		}
		ledger.Keep(sharesKey(k), divide.Encode(out))
	}
	return nil
}

// sharesOf fills in the shares of variance of a choice, by its place in Choices, as shares
// does: as a part found them, where the inputs that bear on the choice are those that it
// took to do so, or worked out.
func (a Request) sharesOf(ctx context.Context, k int, into *RankedChoice, bearing []axis.Input, progress func(engine.Progress)) (note string, err error) {
	if ledger := a.Options.Ledger; ledger.Merging() {
		found, err := divide.One[foundShares](ledger.Found(sharesKey(k)), fmt.Sprintf("the shares of variance of choice %d", k))
		if err != nil {
			return "", err
		}
		if slices.Equal(found.Inputs, paths(bearing)) {
			for i := range min(len(found.First), len(found.Total), len(bearing)) { // none where a note says why
				into.Inputs[i].First, into.Inputs[i].Total = &found.First[i], &found.Total[i]
			}
			into.Spread, into.Noise = found.Spread, found.Noise
			return found.Note, nil
		}
	}
	return a.shares(ctx, a.Choices[k], into, bearing, progress)
}

func sharesKey(k int) string { return fmt.Sprint("shares of variance ", k) }

// paths returns the paths of inputs.
func paths(inputs []axis.Input) (all []string) {
	for _, in := range inputs {
		all = append(all, in.Axis.Path)
	}
	return all
}
