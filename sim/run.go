// Package sim computes what a choice of drives risks over a service life.
//
// [Run] simulates one choice of a site and gives a [Result], in which every
// figure is an [Estimate] with its interval. What it is given is package
// array's; the rules of failure and repair stand in package model, the
// estimator in package branch, its check in package plain, the laws of chance
// in package law, and the exact and textbook figures in package exact.
//
// # Stopping
//
// Trials are run in rounds until the 95 % half-width of the loss chance,
// relative to the loss chance, is below what was asked for and the sample can
// be trusted, or until the budget of trials, or of work, is used up. The result
// says which.
//
// # Reproducing
//
// Block i of a run always draws from stream (seed, i), and blocks are added in
// their order. Rounds depend on nothing but the sums so far. So one seed gives
// the same digits for any number of workers.
package sim

import (
	"context"
	"errors"
	"fmt"
	"math"
	"runtime"
	"sync/atomic"

	"arrayodds/array"
	"arrayodds/sim/branch"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/stream"

	"golang.org/x/sync/errgroup"
)

const (
	blockTrials = 128 // trials that share a stream
	firstBlocks = 16
	chunkBlocks = 256 // blocks that are kept before they are added up, at the most

	// Work is counted in units of about 100 ns, and bounds the time that any
	// choice can take, whatever it is: some minutes for a run, and less for a
	// block, which is the least that a run can do.
	runWork   = 3e9
	chunkWork = 1e8
	blockWork = 2e8
)

// A BusyError is a choice whose lives have too many events to be followed.
type BusyError struct {
	Choice   string
	Failures float64 // of its drives in a service life, roughly
}

func (e *BusyError) Error() string {
	return fmt.Sprintf("choice %q: its drives fail about %.3g times in the service life, and with all that follows that is more than can be simulated; right would be fewer drives, a lower failure rate, shorter repairs, fewer common-cause events or a shorter life", e.Choice, e.Failures)
}

// teller tells one life.
type teller interface {
	Life(*stream.Stream, *model.Trial) bool
}

// Run simulates a choice of a site. The error is that of the context, a
// [BusyError], or that of a site that was not read by package site.
func Run(ctx context.Context, site array.Site, choice array.Choice, opt Options) (Result, error) {
	r, err := runChoice(ctx, site, choice, opt)
	if busy, ok := errors.AsType[*BusyError](err); ok {
		busy.Choice = choice.Label
	}
	if err != nil {
		return Result{}, err
	}
	return r, nil
}

func runChoice(ctx context.Context, site array.Site, choice array.Choice, opt Options) (Result, error) {
	sys, err := model.New(site, choice)
	if err != nil {
		return Result{}, err
	}
	sums, by, err := simulate(ctx, sys, opt)
	if err != nil {
		return Result{}, err
	}
	r := summarise(sys, sums, opt.Plain)
	r.StoppedBy = by
	r.Exact = exactLoss(sys)
	r.Textbook = textbookLoss(sys)
	if r.Record, err = recordSpan(ctx, sys, opt); err != nil {
		return Result{}, err
	}
	if !site.Estimated() {
		return r, nil
	}
	if r.AtLowBitRate, err = atBitRate(ctx, site.Lowest(), choice, opt); err != nil {
		return Result{}, err
	}
	r.AtHighBitRate, err = atBitRate(ctx, site.Highest(), choice, opt)
	return r, err
}

// atBitRate simulates a choice once more with the cameras of another site, from
// the same streams, so that the difference is sharper than the figures.
func atBitRate(ctx context.Context, site array.Site, choice array.Choice, opt Options) (*AtBitRate, error) {
	sys, err := model.New(site, choice)
	if err != nil {
		return nil, err
	}
	opt.Progress = nil
	sums, _, err := simulate(ctx, sys, opt)
	if err != nil {
		return nil, err
	}
	r := summarise(sys, sums, opt.Plain)
	return &AtBitRate{r.LossChance, r.MissingClip}, nil
}

// expectedFailures is the drives that fail in a life, roughly.
func expectedFailures(sys *model.System) float64 {
	each := math.Max(sys.Life.Cumulative(sys.Horizon), sys.Horizon/sys.Life.Mean())
	if sys.Uncertain > 0 {
		each *= sys.Uncertain
	}
	each += sys.ShockRate * sys.ShockChance * sys.Horizon
	return each * float64(sys.Groups()*sys.Drives)
}

// simulate adds up as many trials as the options ask for.
func simulate(ctx context.Context, sys *model.System, opt Options) (*model.Sums, StoppedBy, error) {
	r := newRunner(sys, opt)
	budget := max(1, opt.MaxTrials/blockTrials)
	goal := min(firstBlocks, budget)
	for {
		if err := r.runTo(ctx, goal); err != nil {
			return nil, "", err
		}
		reach := relativeReach(r.total)
		done := reach <= opt.Accuracy && len(distrust(r.total)) == 0
		spent := r.blocks >= budget || r.total.Work >= runWork
		need := foresee(r.blocks, reach, opt.Accuracy)
		if done {
			need = r.blocks
		}
		r.report(reach, min(need, budget))
		switch {
		case done:
			return r.total, ByAccuracy, nil
		case spent:
			return r.total, ByBudget, nil
		}
		goal = min(need, budget)
	}
}

// foresee is the number of blocks that the next round should bring the run to:
// the error falls as the root of their number. Early guesses are rough, so a
// round multiplies the run by 4 at most and by 1¼ at least.
func foresee(blocks int, reach, accuracy float64) int {
	factor := math.Min(4, 1.05*(reach/accuracy)*(reach/accuracy))
	if !(factor > 1.25) {
		factor = 1.25
	}
	return int(math.Ceil(float64(blocks) * factor))
}

// runner does blocks and adds them up.
type runner struct {
	sys     *model.System
	opt     Options
	tellers []teller
	streams []*stream.Stream
	total   *model.Sums
	blocks  int
	chunk   []*model.Sums
	stop    atomic.Bool
	each    func(*model.Sums) // sees every block that is added; nil: nobody does
}

// newRunner has as many tellers as workers.
func newRunner(sys *model.System, opt Options) *runner {
	workers := opt.Workers
	if workers < 1 {
		workers = runtime.GOMAXPROCS(0)
	}
	r := &runner{sys: sys, opt: opt, total: model.NewSums(sys)}
	for range workers {
		r.tellers = append(r.tellers, tellerOf(sys, opt.Plain))
		r.streams = append(r.streams, stream.New(0, 0))
	}
	return r
}

func tellerOf(sys *model.System, asPlain bool) teller {
	if asPlain {
		return plain.New(sys)
	}
	return branch.New(sys)
}

// runTo runs blocks until there are goal of them, or the work is used up.
func (r *runner) runTo(ctx context.Context, goal int) error {
	for r.blocks < goal && r.total.Work < runWork {
		n := min(r.chunkLength(), goal-r.blocks)
		for len(r.chunk) < n {
			s := model.NewSums(r.sys)
			s.MostWork, s.Stop = blockWork, &r.stop
			r.chunk = append(r.chunk, s)
		}
		if err := r.runChunk(ctx, n); err != nil {
			return err
		}
		for _, s := range r.chunk[:n] {
			r.total.Add(s)
			if r.each != nil {
				r.each(s)
			}
		}
		r.blocks += n
	}
	return nil
}

// chunkLength is how many blocks to do before looking at the work again. It
// depends on nothing but the work so far.
func (r *runner) chunkLength() int {
	if r.blocks == 0 {
		return 2
	}
	each := r.total.Work/r.blocks + 1
	return max(1, min(chunkBlocks, chunkWork/each))
}

func (r *runner) runChunk(ctx context.Context, n int) error {
	var next atomic.Int64
	defer context.AfterFunc(ctx, func() { r.stop.Store(true) })()
	var g errgroup.Group
	for w := range min(n, len(r.tellers)) {
		g.Go(func() error {
			for {
				i := int(next.Add(1)) - 1
				if i >= n {
					return nil
				}
				if err := r.runBlock(ctx, w, r.blocks+i, r.chunk[i]); err != nil {
					return err
				}
			}
		})
	}
	return g.Wait()
}

func (r *runner) runBlock(ctx context.Context, worker, block int, into *model.Sums) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	into.Reset()
	rnd := r.streams[worker]
	rnd.Restart(r.opt.Seed, uint64(block))
	for range blockTrials {
		if !r.tellers[worker].Life(rnd, into.Begin()) {
			if err := ctx.Err(); err != nil {
				return err
			}
			return &BusyError{Failures: expectedFailures(r.sys)}
		}
		into.End()
	}
	return nil
}

func (r *runner) report(reach float64, need int) {
	if r.opt.Progress == nil {
		return
	}
	share := 1.0
	if need > r.blocks {
		share = float64(r.blocks) / float64(need)
	}
	r.opt.Progress(Progress{Trials: r.blocks * blockTrials, Accuracy: reach, Share: share})
}
