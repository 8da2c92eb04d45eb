package trace

import (
	"context"
	"fmt"
	"math"
	"slices"
	"sync/atomic"

	"arrayodds/sim"
	"arrayodds/sim/branch"
	"arrayodds/sim/branch/sample"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/history"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"

	"golang.org/x/sync/errgroup"
)

// Lives with a loss are drawn from forced branching. Each first loss that it
// counts is a sample of the law of lives up to their first loss, with a weight.
// So the blocks are run twice: once to learn the weights, and then those blocks
// again, recorded, in which evenly spaced marks on the line of all weights lie
// (systematic sampling). A life of weight w is drawn w × n ÷ total times on
// average, and never twice where that is below 1. From the loss on a life goes on
// by the ordinary law, which package plain simulates.

// perLife is how many independent samples of a loss there should be for each one
// that is drawn.
const perLife = 20

// conditionedOnLoss returns n lives in which footage is lost.
func conditionedOnLoss(ctx context.Context, sys *model.System, n int, opt engine.Options) (Lives, error) {
	lives, histories, err := drawHistories(ctx, sys, n, opt)
	if err != nil {
		return Lives{}, err
	}
	t := newTracer(ctx, sys)
	defer t.stop()
	for k := range histories {
		rnd := stream.New(opt.Seed, lossStreams+uint64(k))
		life, err := t.life(rnd, func(tr *model.Trial, rec *history.Record) bool {
			return t.plain.Follow(&histories[k], rnd, tr, rec)
		})
		if err != nil {
			return Lives{}, err
		}
		lives.Lives = append(lives.Lives, life)
	}
	return lives, nil
}

// drawHistories draws n lives up to their first loss. The lives returned beside
// them have no lives yet, only the loss chance and the warnings.
func drawHistories(ctx context.Context, sys *model.System, n int, opt engine.Options) (lives Lives, histories []history.History, err error) {
	w, err := weigh(ctx, sys, n, opt)
	if err != nil {
		return lives, nil, err
	}
	if !(w.total.Sum[model.Loss] > 0) {
		return lives, nil, ErrNoLoss
	}
	lives.LossChance = w.chance
	lives.Warnings = w.warnings(n)
	histories, err = w.draw(ctx, n)
	return lives, histories, err
}

// weighed is a sample of blocks with the weight of each.
type weighed struct {
	sys     *model.System
	opt     engine.Options
	total   *model.Sums
	weights []float64         // of first losses, by block
	chance  estimate.Estimate // of a loss, as sim.Run would give it
}

// weigh runs blocks as engine.Simulate does, and then more, until n lives can be
// drawn from them or the budget is used up.
func weigh(ctx context.Context, sys *model.System, n int, opt engine.Options) (w *weighed, err error) {
	r := engine.NewRunner(sys, opt)
	w = &weighed{sys: sys, opt: opt, total: r.Total}
	r.EachBlock = func(s *model.Sums) { w.weights = append(w.weights, s.Sum[model.Loss]) }
	goal := min(engine.FirstRound, opt.MaxBlocks())
	for known := false; ; {
		if err := r.RunTo(ctx, goal); err != nil {
			return nil, err
		}
		halfWidth := engine.RelativeHalfWidth(r.Total)
		if !known && (r.Spent() || halfWidth <= opt.Accuracy && len(engine.Warnings(r.Total)) == 0) {
			known = true
			if w.chance, err = w.chanceOf(ctx, r.Total); err != nil {
				return nil, err
			}
		}
		needed := engine.NextBlocks(r.Blocks, halfWidth, opt.Accuracy)
		if known {
			needed = engine.NextBlocks(r.Blocks, math.Sqrt(perLife*float64(n)/r.Total.EffectiveSamples()), 1)
		}
		nothingFails := halfWidth == 0 && r.Total.Sum[model.Loss] == 0
		done := known && w.serves(n) || nothingFails
		if done {
			needed = r.Blocks
		}
		goal = min(needed, opt.MaxBlocks())
		r.ReportProgress(halfWidth, goal)
		if done || r.Spent() {
			return w, nil
		}
	}
}

// chanceOf returns the loss chance as sim.Run would give it: that of the sample, or of
// plain lives where they serve better. (Lives with a loss are drawn from the sample.)
func (w *weighed) chanceOf(ctx context.Context, sample *model.Sums) (estimate.Estimate, error) {
	plain, err := engine.PlainServes(ctx, w.sys, w.opt)
	if err != nil {
		return estimate.None(), err
	}
	if plain {
		opt := w.opt
		opt.Plain, opt.Progress = true, nil
		if sample, _, err = engine.Simulate(ctx, w.sys, opt); err != nil {
			return estimate.None(), err
		}
	}
	return sim.Summarise(w.sys, sample).LossChance, nil
}

// serves reports whether n lives can be drawn that are as good as independent, and
// no two from one life of the sample.
func (w *weighed) serves(n int) bool {
	return w.total.EffectiveSamples() >= perLife*float64(n) && engine.LargestShare(w.total)*float64(n) < 1
}

// warnings returns why n lives drawn from the sample may not be what losses look
// like.
func (w *weighed) warnings(n int) []string {
	why := engine.Warnings(w.total)
	if !w.serves(n) {
		why = append(why, fmt.Sprintf("the lives are drawn from a sample worth about %.0f independent losses, and for %d lives it should be %d: some may be alike up to their first loss", w.total.EffectiveSamples(), n, perLife*n))
	}
	return why
}

// Streams of their own for the marks and for what is drawn beside the lives.
const (
	markStream    = lossStreams + 1<<40
	sampledBlocks = lossStreams + 1<<41
)

// draw draws n histories in proportion to their weights.
func (w *weighed) draw(ctx context.Context, n int) (histories []history.History, err error) {
	var stop atomic.Bool
	defer context.AfterFunc(ctx, func() { stop.Store(true) })()
	caught := make([][]history.History, len(w.weights)) // by block, whichever is done first
	var g errgroup.Group
	g.SetLimit(engine.Workers(w.opt.Workers))
	for block, marks := range w.marks(n) {
		if len(marks) > 0 {
			g.Go(func() (err error) {
				caught[block], err = w.sample(ctx, block, marks, &stop)
				return err
			})
		}
	}
	if err := g.Wait(); err != nil {
		return nil, err
	}
	return slices.Concat(caught...), nil
}

// sample runs a block again and returns the histories at the marks.
func (w *weighed) sample(ctx context.Context, block int, marks []float64, stop *atomic.Bool) ([]history.History, error) {
	losses := sample.New(marks, stream.New(w.opt.Seed, sampledBlocks+uint64(block)))
	b := branch.New(w.sys)
	b.Sample(losses)
	sums := model.NewSums(w.sys)
	sums.Stop = stop
	rnd := stream.New(w.opt.Seed, uint64(block))
	for len(losses.Marks) > 0 && !losses.TooLong {
		if !b.Life(rnd, sums.Begin()) {
			return nil, ctx.Err()
		}
		sums.End() // a life's strata depend on how many came before it
	}
	if losses.TooLong {
		return nil, errTooLong
	}
	return losses.Caught, nil
}

// marks returns, by block, where on the line of the block's own weights its marks
// lie: n marks in all, evenly spaced on the line of all weights.
func (w *weighed) marks(n int) [][]float64 {
	total, last := 0.0, 0
	for i, x := range w.weights {
		if x > 0 {
			total += x
			last = i
		}
	}
	marks := make([][]float64, len(w.weights))
	at := stream.New(w.opt.Seed, markStream).Float64()
	block, before := 0, 0.0
	for k := range n {
		mark := (float64(k) + at) * total / float64(n)
		for block < last && mark >= before+w.weights[block] {
			before += w.weights[block]
			block++
		}
		// Added one by one, the weights of a block may come to a little less.
		marks[block] = append(marks[block], math.Min(mark-before, w.weights[block]*(1-1e-9)))
	}
	return marks
}
