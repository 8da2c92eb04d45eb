package trace

import (
	"context"
	"fmt"
	"math"
	"slices"

	"arrayodds/sim"
	"arrayodds/sim/branch"
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
// (systematic sampling). A life of weight w is drawn w × n ÷ total times in the
// mean, and never twice where that is below 1. From the loss on a life goes on
// by the ordinary law, which package plain tells.

// perLife is how many independent samples of a loss there should be for each one
// that is drawn.
const perLife = 20

func conditionedOnLoss(ctx context.Context, sys *model.System, n int, opt engine.Options) (Lives, error) {
	told, histories, err := drawHistories(ctx, sys, n, opt)
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
		told.Lives = append(told.Lives, life)
	}
	return told, nil
}

// drawHistories draws n lives up to their first loss.
func drawHistories(ctx context.Context, sys *model.System, n int, opt engine.Options) (told Lives, histories []history.History, err error) {
	w, err := weigh(ctx, sys, n, opt)
	if err != nil {
		return told, nil, err
	}
	if !(w.Total.Sum[model.Loss] > 0) {
		return told, nil, ErrNoLoss
	}
	told.LossChance = w.chance
	told.Warnings = w.doubts(n)
	histories, err = w.draw(ctx, n)
	return told, histories, err
}

// weighing runs blocks and keeps the weight of each.
type weighing struct {
	*engine.Runner
	weights []float64         // of first losses, by block
	chance  estimate.Estimate // as Run would give it
}

// weigh runs blocks as Run does, and then more, until n lives can be drawn from
// them or the budget is spent.
func weigh(ctx context.Context, sys *model.System, n int, opt engine.Options) (*weighing, error) {
	w := &weighing{Runner: engine.NewRunner(sys, opt)}
	w.EachBlock = func(s *model.Sums) { w.weights = append(w.weights, s.Sum[model.Loss]) }
	budget := int(max(1, opt.MaxTrials/engine.BlockTrials))
	goal := min(engine.FirstBlocks, budget)
	for known := false; ; {
		if err := w.RunTo(ctx, goal); err != nil {
			return nil, err
		}
		reach := engine.HalfWidth(w.Total)
		spent := w.Blocks >= budget || w.Total.Work >= engine.RunWork
		if !known && (spent || reach <= opt.Accuracy && len(engine.Warnings(w.Total)) == 0) {
			known = true
			w.chance = sim.Summarise(sys, w.Total, false).LossChance
		}
		need := engine.NextBlocks(w.Blocks, reach, opt.Accuracy)
		if known {
			need = engine.NextBlocks(w.Blocks, math.Sqrt(perLife*float64(n)/engine.EffectiveSamples(w.Total)), 1)
		}
		never := reach == 0 && w.Total.Sum[model.Loss] == 0 // nothing can fail
		done := known && w.serves(n) || never
		if done {
			need = w.Blocks
		}
		w.Report(reach, min(need, budget))
		if done || spent {
			return w, nil
		}
		goal = min(need, budget)
	}
}

// serves says whether n lives can be drawn that are as good as independent, and
// no two from one life of the sample.
func (w *weighing) serves(n int) bool {
	return engine.EffectiveSamples(w.Total) >= perLife*float64(n) && engine.LargestShare(w.Total)*float64(n) < 1
}

func (w *weighing) doubts(n int) []string {
	why := engine.Warnings(w.Total)
	if !w.serves(n) {
		why = append(why, fmt.Sprintf("the lives are drawn from a sample worth about %.0f independent losses, and for %d lives it should be %d: some may be alike up to their first loss", engine.EffectiveSamples(w.Total), n, perLife*n))
	}
	return why
}

// Streams of their own for the marks and for what recorders draw.
const (
	markStream     = lossStreams + 1<<40
	recordedBlocks = lossStreams + 1<<41
)

// draw draws n histories in proportion to their weights.
func (w *weighing) draw(ctx context.Context, n int) (histories []history.History, err error) {
	defer context.AfterFunc(ctx, func() { w.Stop.Store(true) })()
	caught := make([][]history.History, len(w.weights)) // by block, whoever comes first
	var g errgroup.Group
	g.SetLimit(len(w.Simulators))
	for block, marks := range w.marks(n) {
		if len(marks) > 0 {
			g.Go(func() (err error) {
				caught[block], err = w.record(ctx, block, marks)
				return err
			})
		}
	}
	if err := g.Wait(); err != nil {
		return nil, err
	}
	return slices.Concat(caught...), nil
}

// record runs a block again and gives the histories at the marks.
func (w *weighing) record(ctx context.Context, block int, marks []float64) ([]history.History, error) {
	r := branch.NewSampler(marks, stream.New(w.Options.Seed, recordedBlocks+uint64(block)))
	b := branch.New(w.System)
	b.Sample(r)
	sums := model.NewSums(w.System)
	sums.Stop = &w.Stop
	rnd := stream.New(w.Options.Seed, uint64(block))
	for len(r.Marks) > 0 && !r.Long {
		if !b.Life(rnd, sums.Begin()) {
			return nil, ctx.Err()
		}
	}
	if r.Long {
		return nil, ErrLong
	}
	return r.Caught, nil
}

// marks is, by block, where on the line of the block's own weights its marks
// lie.
func (w *weighing) marks(n int) [][]float64 {
	total, last := 0.0, 0
	for i, x := range w.weights {
		if x > 0 {
			total += x
			last = i
		}
	}
	marks := make([][]float64, len(w.weights))
	at := stream.New(w.Options.Seed, markStream).Float64()
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
