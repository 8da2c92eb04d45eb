package sweep

import (
	"context"
	"sync/atomic"

	"arrayodds/sim/engine"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"

	"golang.org/x/sync/errgroup"
)

const (
	longestPiece       = 64  // blocks
	pieceWork    int64 = 1e6 // about 0.1 s
	wavePieces         = 128 // pieces that are kept before they are added up
)

// piece is some blocks of one point. Which pieces there are depends on the sums
// so far, never on the workers, and they are added in their order.
type piece struct {
	of       *member
	from, to int // blocks
}

// outcome is the sums of a piece.
type outcome struct {
	blocks int        // done: fewer than asked for where the work was used up
	sums   model.Sums // without curve and histograms
	bundle []model.Sample
	err    error // of this point alone
}

// reset makes it that of no lives, in blocks of so many.
func (o *outcome) reset(lives int) {
	if o.bundle == nil {
		o.bundle = make([]model.Sample, lives)
	}
	clear(o.bundle)
	*o = outcome{bundle: o.bundle}
}

// pool is workers that do pieces.
type pool struct {
	series  *Series
	workers []*worker
	found   []outcome // of a wave
	stop    atomic.Bool
}

// worker keeps what it needs for the point that it did last.
type worker struct {
	of        *member
	simulator engine.Simulator
	sums      *model.Sums
	rnd       *stream.Stream
}

// newPool returns the workers of a series.
func newPool(s *Series) *pool {
	p := &pool{series: s}
	for range engine.Workers(s.opt.Workers) {
		p.workers = append(p.workers, &worker{rnd: stream.New(0, 0)})
	}
	return p
}

// do does the pieces, wave by wave, and adds them to their points.
func (p *pool) do(ctx context.Context, pieces []piece) error {
	defer context.AfterFunc(ctx, func() { p.stop.Store(true) })()
	for len(pieces) > 0 {
		wave := pieces[:min(wavePieces, len(pieces))]
		pieces = pieces[len(wave):]
		if more := len(wave) - len(p.found); more > 0 {
			p.found = append(p.found, make([]outcome, more)...)
		}
		if err := p.wave(ctx, wave); err != nil {
			return err
		}
		for i, w := range wave {
			w.of.add(w, &p.found[i])
		}
		p.series.progress()
	}
	return nil
}

// wave does pieces into p.found.
func (p *pool) wave(ctx context.Context, pieces []piece) error {
	var next atomic.Int64
	var g errgroup.Group
	for _, w := range p.workers[:min(len(pieces), len(p.workers))] {
		g.Go(func() error {
			for {
				i := int(next.Add(1)) - 1
				if i >= len(pieces) {
					return nil
				}
				if err := ctx.Err(); err != nil {
					return err
				}
				w.turnTo(pieces[i].of, p)
				p.found[i].reset(p.series.lives)
				if !w.do(ctx, pieces[i], p.series, &p.found[i]) {
					if err := ctx.Err(); err != nil {
						return err
					}
					busy := engine.NewBusyError(w.of.sys)
					busy.Choice = w.of.curve.label
					p.found[i].err = busy
				}
			}
		})
	}
	return g.Wait()
}

// turnTo makes the worker ready for a point.
func (w *worker) turnTo(m *member, p *pool) {
	if w.of == m {
		return
	}
	w.of = m
	w.simulator = engine.NewSimulator(m.sys, m.plain())
	w.sums = model.NewSums(m.sys)
	w.sums.Stop, w.sums.FiguresOnly = &p.stop, true
}

// do simulates the lives of a piece, each from a stream of its own, looking at the
// context before each block. It reports whether all came to their end.
func (w *worker) do(ctx context.Context, p piece, s *Series, into *outcome) bool {
	w.sums.Reset()
	most := s.work
	ok := true
	for block := p.from; ok && block < p.to && w.sums.Work <= most; block++ {
		if ok = ctx.Err() == nil; !ok {
			break
		}
		w.sums.MostWork = w.sums.Work + min(engine.MaxBlockWork, most)
		for i := range s.lives {
			w.rnd.Restart(s.opt.Seed, uint64(block)*engine.TrialsPerBlock+uint64(i))
			trial := w.sums.Begin()
			if ok = w.simulator.Life(w.rnd, trial); !ok {
				break
			}
			sample := trial.Sample()
			into.bundle[i].Add(&sample)
			w.sums.End()
		}
		if ok {
			into.blocks++
		}
	}
	into.sums.AddFigures(w.sums)
	return ok
}
