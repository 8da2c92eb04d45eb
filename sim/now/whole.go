package now

import (
	"context"
	"math"
	"sort"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/stream"
)

const (
	wholeLives = 2000
	// wholeStream is the number of the stream of these lives, beyond those of blocks and
	// pilots.
	wholeStream = 1<<62 + 1<<61
)

// wholeAfter returns when all drives run again.
func wholeAfter(ctx context.Context, sys *model.System, opt engine.Options) (Whole, error) {
	simulator, sums := plain.New(sys), model.NewSums(sys)
	sums.MostWork, sums.FiguresOnly = engine.MaxBlockWork, true
	defer context.AfterFunc(ctx, func() { sums.Stop.Store(true) })()
	rnd := stream.New(opt.Seed, wholeStream)
	var hours []float64
	for range wholeLives {
		if !simulator.Life(rnd, sums.Begin()) {
			if err := ctx.Err(); err != nil {
				return Whole{}, err
			}
			return Whole{}, engine.NewBusyError(sys)
		}
		sums.End()
		hours = append(hours, simulator.WholeAfter())
	}
	sort.Float64s(hours)
	not := 0
	for _, h := range hours {
		if math.IsInf(h, 1) {
			not++
		}
	}
	return Whole{
		Median: estimate.Quantile(hours, 0.5), Ninety: estimate.Quantile(hours, 0.9),
		Lives: wholeLives, Not: estimate.Proportion(float64(not), wholeLives),
	}, nil
}

// chanceOf returns a chance, or what is left open of one that was not seen.
func chanceOf(s *model.Sums, f *model.Fit, q model.Quantity) estimate.Estimate {
	if s.Sum[q] == 0 {
		return unseen(s)
	}
	return f.Estimate(q).AtMostOne()
}

// unseen returns what is left open of a chance that was not seen.
func unseen(s *model.Sums) estimate.Estimate { return estimate.Unseen(s.N, 1).AtMostOne() }
