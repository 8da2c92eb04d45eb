package sim

import (
	"context"
	"fmt"
	"math"
	"slices"

	"arrayodds/sim/branch"
	"arrayodds/sim/model"
	"arrayodds/sim/replay"
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

func thatLose(ctx context.Context, sys *model.System, n int, opt Options) (Lives, error) {
	told, histories, err := drawHistories(ctx, sys, n, opt)
	if err != nil {
		return Lives{}, err
	}
	t := newTelling(ctx, sys)
	defer t.stop()
	for k := range histories {
		rnd := stream.New(opt.Seed, lossStreams+uint64(k))
		life, err := t.life(rnd, func(tr *model.Trial, rec *replay.Record) bool {
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
func drawHistories(ctx context.Context, sys *model.System, n int, opt Options) (told Lives, histories []replay.History, err error) {
	w, err := weigh(ctx, sys, n, opt)
	if err != nil {
		return told, nil, err
	}
	if !(w.total.Sum[model.Loss] > 0) {
		return told, nil, ErrNoLoss
	}
	told.LossChance = w.chance
	told.Warnings = w.doubts(n)
	histories, err = w.draw(ctx, n)
	return told, histories, err
}

// weighing runs blocks and keeps the weight of each.
type weighing struct {
	*runner
	weights []float64 // of first losses, by block
	chance  Estimate  // as Run would give it
}

// weigh runs blocks as Run does, and then more, until n lives can be drawn from
// them or the budget is spent.
func weigh(ctx context.Context, sys *model.System, n int, opt Options) (*weighing, error) {
	w := &weighing{runner: newRunner(sys, opt)}
	w.each = func(s *model.Sums) { w.weights = append(w.weights, s.Sum[model.Loss]) }
	budget := max(1, opt.MaxTrials/blockTrials)
	goal := min(firstBlocks, budget)
	for known := false; ; {
		if err := w.runTo(ctx, goal); err != nil {
			return nil, err
		}
		reach := relativeReach(w.total)
		spent := w.blocks >= budget || w.total.Work >= runWork
		if !known && (spent || reach <= opt.Accuracy && len(distrust(w.total)) == 0) {
			known = true
			w.chance = summarise(sys, w.total, false).LossChance
		}
		need := foresee(w.blocks, reach, opt.Accuracy)
		if known {
			need = foresee(w.blocks, math.Sqrt(perLife*float64(n)/effective(w.total)), 1)
		}
		never := reach == 0 && w.total.Sum[model.Loss] == 0 // nothing can fail
		done := known && w.serves(n) || never
		if done {
			need = w.blocks
		}
		w.report(reach, min(need, budget))
		if done || spent {
			return w, nil
		}
		goal = min(need, budget)
	}
}

// serves says whether n lives can be drawn that are as good as independent, and
// no two from one life of the sample.
func (w *weighing) serves(n int) bool {
	return effective(w.total) >= perLife*float64(n) && largestShare(w.total)*float64(n) < 1
}

func (w *weighing) doubts(n int) []string {
	why := distrust(w.total)
	if !w.serves(n) {
		why = append(why, fmt.Sprintf("the lives are drawn from a sample worth about %.0f independent losses, and for %d lives it should be %d: some may be alike up to their first loss", effective(w.total), n, perLife*n))
	}
	return why
}

// Streams of their own for the marks and for what recorders draw.
const (
	markStream     = lossStreams + 1<<40
	recordedBlocks = lossStreams + 1<<41
)

// draw draws n histories in proportion to their weights.
func (w *weighing) draw(ctx context.Context, n int) (histories []replay.History, err error) {
	defer context.AfterFunc(ctx, func() { w.stop.Store(true) })()
	caught := make([][]replay.History, len(w.weights)) // by block, whoever comes first
	var g errgroup.Group
	g.SetLimit(len(w.tellers))
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
func (w *weighing) record(ctx context.Context, block int, marks []float64) ([]replay.History, error) {
	r := branch.NewRecorder(marks, stream.New(w.opt.Seed, recordedBlocks+uint64(block)))
	b := branch.New(w.sys)
	b.Record(r)
	sums := model.NewSums(w.sys)
	sums.Stop = &w.stop
	rnd := stream.New(w.opt.Seed, uint64(block))
	for len(r.Marks) > 0 && !r.Long {
		if !b.Life(rnd, sums.Begin()) {
			return nil, ctx.Err()
		}
	}
	if r.Long {
		return nil, replay.ErrLong
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
