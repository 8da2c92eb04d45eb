package engine

import (
	"context"
	"runtime"
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
	// order of the blocks, after they were added to Total. They are only good for
	// the call.
	EachBlock func(*model.Sums)

	system     *model.System
	options    Options
	simulators []Simulator // one a worker, as are the streams
	streams    []*stream.Stream
	chunk      []*model.Sums // blocks that are not added up yet; their memory is used again
	stopped    atomic.Bool
	blockWork  int64   // MaxBlockWork; less in a test
	share      float64 // of the work, as it was reported: it never falls
}

// NewRunner returns a runner that has run nothing yet.
func NewRunner(sys *model.System, opt Options) *Runner {
	r := &Runner{system: sys, options: opt, Total: model.NewSums(sys), blockWork: MaxBlockWork}
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
	for r.Blocks < blocks && r.Total.Work < r.options.maxWork() {
		n := min(r.chunkLength(), blocks-r.Blocks)
		for len(r.chunk) < n {
			s := model.NewSums(r.system)
			s.MostWork, s.Stop = r.blockWork, &r.stopped
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
		if r.Blocks < blocks && r.options.Progress != nil {
			r.ReportProgress(RelativeHalfWidth(r.Total), blocks)
		}
	}
	return nil
}

// Spent reports whether the budget of trials or of work is used up.
func (r *Runner) Spent() bool {
	return r.Blocks >= r.options.MaxBlocks() || r.Total.Work >= r.options.maxWork()
}

// chunkLength returns how many blocks to run before the work is looked at again. It
// depends on nothing but the work so far.
func (r *Runner) chunkLength() int {
	if r.Blocks == 0 {
		return 2
	}
	each := r.Total.Work/int64(r.Blocks) + 1
	return int(max(1, min(maxChunkBlocks, maxChunkWork/each)))
}

// runChunk runs the next n blocks into r.chunk.
func (r *Runner) runChunk(ctx context.Context, n int) error {
	var next atomic.Int64
	defer context.AfterFunc(ctx, func() { r.stopped.Store(true) })()
	var g errgroup.Group
	for w := range min(n, len(r.simulators)) {
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
	if err := r.options.Slots.take(ctx); err != nil {
		return err
	}
	defer r.options.Slots.give()
	into.Reset()
	rnd := r.streams[worker]
	rnd.Restart(r.options.Seed, uint64(block))
	for range TrialsPerBlock {
		if !r.simulators[worker].Life(rnd, into.Begin()) {
			if err := ctx.Err(); err != nil {
				return err
			}
			return NewBusyError(r.system)
		}
		into.End()
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
	r.share = max(r.share, share)
	r.options.Progress(Progress{Trials: r.Blocks * TrialsPerBlock, Accuracy: halfWidth, Share: r.share})
}
