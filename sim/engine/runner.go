package engine

import (
	"context"
	"runtime"
	"sync"
	"sync/atomic"

	"arrayodds/sim/model"
	"arrayodds/sim/stream"

	"golang.org/x/sync/errgroup"
)

// A Runner runs blocks of trials of one system and adds them up. Make it with
// [NewRunner]. It must not be used by two goroutines at once.
type Runner struct {
	Total  *model.Sums // of the blocks run so far
	Blocks int         // run so far

	// EachBlock, where it is not nil, is called with the sums of every block, in the
	// order of the blocks, after they were added to Total, by one goroutine at a time.
	// They are only good for the call.
	EachBlock func(*model.Sums)

	first      int // block of the system that is its first one
	system     *model.System
	options    Options
	simulators []Simulator // one a worker, as are the streams
	streams    []*stream.Stream
	chunk      []*model.Sums // blocks that are run together; their memory is used again
	stopped    atomic.Bool
	blockWork  int64   // that a block may take
	share      float64 // of the work, as it was reported: it never falls
	told       int64   // the work at which progress was reported last
	mu         sync.Mutex
	done       []bool // of the chunk: blocks that have run
	added      int    // blocks of the chunk that are in Total
}

// NewRunner returns a runner that has run nothing yet.
func NewRunner(sys *model.System, opt Options) *Runner {
	r := &Runner{system: sys, options: opt, Total: model.NewSums(sys), blockWork: opt.maxBlockWork()}
	r.Total.Plain = opt.Plain
	for range Workers(opt.Workers) {
		r.simulators = append(r.simulators, NewSimulator(sys, opt.Plain))
		r.streams = append(r.streams, stream.New(0, 0))
	}
	return r
}

// Workers returns the number of goroutines that asked stands for: itself, or one
// for each processor where it is 0 or less.
func Workers(asked int) int {
	if asked < 1 {
		return runtime.GOMAXPROCS(0)
	}
	return asked
}

// RunTo runs blocks until there are so many in all, or the work of a run is used up
// ([Runner.Spent]). The error is that of the context, or a [BusyError] without the
// label of the choice.
func (r *Runner) RunTo(ctx context.Context, blocks int) error {
	for r.Blocks < blocks && !r.worked() {
		n := min(r.chunkLength(), blocks-r.Blocks)
		for len(r.chunk) < n {
			s := model.NewSums(r.system)
			s.MostWork, s.Stop = r.blockWork, &r.stopped
			r.chunk = append(r.chunk, s)
		}
		if err := r.runChunk(ctx, n, blocks); err != nil {
			return err
		}
	}
	return nil
}

// Spent reports whether the budget of trials or of work is used up.
func (r *Runner) Spent() bool {
	return r.Blocks >= r.options.MaxBlocks() || r.worked()
}

// worked reports whether the work of a run is used up: it is, too, where the next block
// would go far beyond.
func (r *Runner) worked() bool {
	most := r.options.maxWork()
	return r.Total.Work >= most || r.perBlock()-maxChunkWork > most-r.Total.Work
}

// perBlock returns the work of a block, 1 at the least.
func (r *Runner) perBlock() int64 { return r.Total.Work/int64(max(1, r.Blocks)) + 1 }

// chunkLength returns how many blocks to run before the work is looked at again. It
// depends on nothing but the work so far.
func (r *Runner) chunkLength() int {
	if r.Blocks == 0 {
		return 2
	}
	return int(max(1, min(maxChunkBlocks, maxChunkWork/r.perBlock())))
}

// runChunk runs the next n blocks and adds them to Total. needed is how many blocks the
// run is expected to need.
func (r *Runner) runChunk(ctx context.Context, n, needed int) error {
	var next atomic.Int64
	defer context.AfterFunc(ctx, func() { r.stopped.Store(true) })()
	r.done, r.added = make([]bool, n), 0
	first := r.Blocks
	var g errgroup.Group
	for w := range min(n, len(r.simulators)) {
		g.Go(func() error {
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return nil
				}
				if err := r.runBlock(ctx, w, r.first+first+i, r.chunk[i]); err != nil {
					return err
				}
				r.add(i, needed)
			}
		})
	}
	return g.Wait()
}

// add adds blocks of the chunk that have run to Total, in their order, as far as there is
// no gap, and reports progress if there is something to report.
func (r *Runner) add(done, needed int) {
	r.mu.Lock()
	defer r.mu.Unlock()
	r.done[done] = true
	for ; r.added < len(r.done) && r.done[r.added]; r.added++ {
		s := r.chunk[r.added]
		r.Total.Add(s)
		r.Blocks++
		if r.EachBlock != nil {
			r.EachBlock(s)
		}
	}
	if r.options.Progress == nil || r.Blocks >= needed {
		return // the end of a round is told of when it is known what comes next
	}
	if r.added == len(r.done) || r.Total.Work-r.told >= tellingWork {
		r.ReportProgress(RelativeHalfWidth(r.Total), needed)
	}
}

func (r *Runner) runBlock(ctx context.Context, worker, block int, into *model.Sums) error {
	if err := r.options.Slots.take(ctx); err != nil {
		return err
	}
	defer r.options.Slots.give()
	into.Reset()
	rnd := r.streams[worker]
	rnd.Restart(r.options.Seed, uint64(block))
	asked := int64(0) // the work at which the context was looked at last
	for range r.options.blockLives() {
		if !r.simulators[worker].Life(rnd, into.Begin()) {
			if err := ctx.Err(); err != nil {
				return err
			}
			return NewBusyError(r.system)
		}
		into.End()
		if into.Work-asked >= askingWork { // a block of long ones
			asked = into.Work
			if err := ctx.Err(); err != nil {
				return err
			}
		}
	}
	return nil
}

// ReportProgress tells Options.Progress how far the run is: its half-width so far,
// and of how many blocks that it is expected to need.
func (r *Runner) ReportProgress(halfWidth float64, needed int) {
	if r.options.Progress == nil {
		return
	}
	share := 1.0
	if needed > r.Blocks {
		share = float64(r.Blocks) / float64(needed)
	}
	r.share, r.told = max(r.share, share), r.Total.Work
	r.options.Progress(Progress{Trials: r.Blocks * r.options.blockLives(), Accuracy: halfWidth, Share: r.share, Loss: LossChance(r.system, r.Total, model.NewFit(r.Total))})
}
