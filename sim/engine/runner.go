package engine

import (
	"context"
	"runtime"
	"sync/atomic"

	"arrayodds/sim/branch"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/stream"

	"golang.org/x/sync/errgroup"
)

// Simulator tells one life.
type Simulator interface {
	Life(*stream.Stream, *model.Trial) bool
}

// Runner does blocks and adds them up.
type Runner struct {
	System     *model.System
	Options    Options
	Simulators []Simulator
	streams    []*stream.Stream
	Total      *model.Sums
	Blocks     int
	chunk      []*model.Sums
	Stop       atomic.Bool
	EachBlock  func(*model.Sums) // sees every block that is added; nil: nobody does
}

// NewRunner has as many tellers as workers.
func NewRunner(sys *model.System, opt Options) *Runner {
	workers := opt.Workers
	if workers < 1 {
		workers = runtime.GOMAXPROCS(0)
	}
	r := &Runner{System: sys, Options: opt, Total: model.NewSums(sys)}
	for range workers {
		r.Simulators = append(r.Simulators, NewSimulator(sys, opt.Plain))
		r.streams = append(r.streams, stream.New(0, 0))
	}
	return r
}

func NewSimulator(sys *model.System, asPlain bool) Simulator {
	if asPlain {
		return plain.New(sys)
	}
	return branch.New(sys)
}

// RunTo runs blocks until there are goal of them, or the work is used up.
func (r *Runner) RunTo(ctx context.Context, goal int) error {
	for r.Blocks < goal && r.Total.Work < RunWork {
		n := min(r.chunkLength(), goal-r.Blocks)
		for len(r.chunk) < n {
			s := model.NewSums(r.System)
			s.MostWork, s.Stop = BlockWork, &r.Stop
			r.chunk = append(r.chunk, s)
		}
		if err := r.runChunk(ctx, n); err != nil {
			return err
		}
		for _, s := range r.chunk[:n] {
			r.Total.Add(s)
			if r.EachBlock != nil {
				r.EachBlock(s)
			}
		}
		r.Blocks += n
	}
	return nil
}

// chunkLength is how many blocks to do before looking at the work again. It
// depends on nothing but the work so far.
func (r *Runner) chunkLength() int {
	if r.Blocks == 0 {
		return 2
	}
	each := r.Total.Work/int64(r.Blocks) + 1
	return int(max(1, min(chunkBlocks, chunkWork/each)))
}

func (r *Runner) runChunk(ctx context.Context, n int) error {
	var next atomic.Int64
	defer context.AfterFunc(ctx, func() { r.Stop.Store(true) })()
	var g errgroup.Group
	for w := range min(n, len(r.Simulators)) {
		g.Go(func() error {
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return nil
				}
				if err := r.runBlock(ctx, w, r.Blocks+i, r.chunk[i]); err != nil {
					return err
				}
			}
		})
	}
	return g.Wait()
}

func (r *Runner) runBlock(ctx context.Context, worker, block int, into *model.Sums) error {
	if err := r.Options.Slots.take(ctx); err != nil {
		return err
	}
	defer r.Options.Slots.give()
	into.Reset()
	rnd := r.streams[worker]
	rnd.Restart(r.Options.Seed, uint64(block))
	for range BlockTrials {
		if !r.Simulators[worker].Life(rnd, into.Begin()) {
			if err := ctx.Err(); err != nil {
				return err
			}
			return &BusyError{Failures: ExpectedFailures(r.System)}
		}
		into.End()
	}
	return nil
}

func (r *Runner) Report(reach float64, need int) {
	if r.Options.Progress == nil {
		return
	}
	share := 1.0
	if need > r.Blocks {
		share = float64(r.Blocks) / float64(need)
	}
	r.Options.Progress(Progress{Trials: r.Blocks * BlockTrials, Accuracy: reach, Share: share})
}
