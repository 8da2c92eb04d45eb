package trace

import (
	"context"
	"errors"
	"fmt"

	"arrayodds/array"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/history"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/stream"
)

// MaxLives is the number of lives that [Run] simulates at the most.
const MaxLives = 100

// Lives is simulated lives of a choice, every event of them.
type Lives struct {
	Lives []Life
	// LossChance is the chance that a life loses footage with a group: how rare
	// the lives are that do.
	LossChance estimate.Estimate
	// Warnings says why lives that were asked for with a loss may not be what losses
	// look like, a sentence each; nil where they are.
	Warnings []string
}

// maxTogether is the number of events, defects and spans that all lives may have
// together: some hundred megabytes.
const maxTogether = 1000000

// A LongLifeError is a choice whose lives have more events, defects or spans than
// are kept.
type LongLifeError struct {
	Choice   string // its label
	Together bool   // it is all lives that have too many, and not one by itself
}

func (e *LongLifeError) Error() string {
	if e.Together {
		return fmt.Sprintf("choice %q: its lives have more than %d events, latent defects and spans together, and that is more than can be told; right would be fewer lives", e.Choice, maxTogether)
	}
	return fmt.Sprintf("choice %q: one of its lives has more than %d events or latent defects, and that is more than can be told; right would be fewer drives, lower rates of failures, defects or read errors, or a shorter life", e.Choice, history.MaxEvents)
}

var (
	errTooLong  = errors.New("a life has more events than are kept")
	errTogether = errors.New("all lives together have more events than are kept")
)

// ErrNoLoss is a choice of which no life with a loss was seen.
var ErrNoLoss = errors.New("no simulated life lost footage, so there is none to tell")

// Run simulates n lives of a choice of a site, from 1 to [MaxLives], and returns
// every event of them. They are any lives or, with onlyLosses, such in which footage
// is lost with a group, drawn from the law of all lives on that condition. One seed
// gives the same lives for any number of workers; the first of any lives do not
// depend on n.
//
// opt.MaxTrials is the budget for the loss chance and, with onlyLosses, for what the
// lives are drawn from; opt.Plain is left out of account. The errors are those of
// [sim.Run], a [LongLifeError], and [ErrNoLoss].
func Run(ctx context.Context, site array.Site, choice array.Choice, n int, onlyLosses bool, opt engine.Options) (Lives, error) {
	if n < 1 || n > MaxLives {
		return Lives{}, fmt.Errorf("%d lives are asked for; right would be 1 to %d", n, MaxLives)
	}
	sys, err := model.New(site, choice)
	if err != nil {
		return Lives{}, err
	}
	opt.Plain = false
	simulate := anyLives
	if onlyLosses {
		simulate = conditionedOnLoss
	}
	lives, err := simulate(ctx, sys, n, opt)
	if busy, ok := errors.AsType[*engine.BusyError](err); ok {
		busy.Choice = choice.Label
	}
	switch {
	case errors.Is(err, errTooLong):
		return Lives{}, &LongLifeError{Choice: choice.Label}
	case errors.Is(err, errTogether):
		return Lives{}, &LongLifeError{Choice: choice.Label, Together: true}
	case errors.Is(err, ErrNoLoss):
		return Lives{}, fmt.Errorf("choice %q: %w", choice.Label, err)
	case err != nil:
		return Lives{}, err
	}
	return lives, nil
}

// Streams of single lives lie far from those of the blocks of a run.
const (
	plainStreams = 1 << 62
	lossStreams  = 1 << 63
)

// anyLives returns the first n lives of the plain simulation.
func anyLives(ctx context.Context, sys *model.System, n int, opt engine.Options) (Lives, error) {
	sums, _, err := engine.Simulate(ctx, sys, opt)
	if err != nil {
		return Lives{}, err
	}
	lives := Lives{LossChance: sim.Summarise(sys, sums).LossChance}
	t := newTracer(ctx, sys)
	defer t.stop()
	for k := range n {
		rnd := stream.New(opt.Seed, plainStreams+uint64(k))
		life, err := t.life(rnd, func(tr *model.Trial, rec *history.Record) bool { return t.plain.Trace(rnd, tr, rec) })
		if err != nil {
			return Lives{}, err
		}
		lives.Lives = append(lives.Lives, life)
	}
	return lives, nil
}

// tracer simulates lives one by one, with bounded work and memory.
type tracer struct {
	ctx   context.Context
	sys   *model.System
	plain *plain.Simulator
	sums  *model.Sums
	kept  int // events, defects and spans of all lives so far
	stop  func() bool
}

func newTracer(ctx context.Context, sys *model.System) *tracer {
	t := &tracer{ctx: ctx, sys: sys, plain: plain.New(sys), sums: model.NewSums(sys)}
	t.sums.MostWork = engine.MaxRunWork
	t.stop = context.AfterFunc(ctx, func() { t.sums.Stop.Store(true) })
	return t
}

// life returns the life of the record that course fills.
func (t *tracer) life(rnd *stream.Stream, course func(*model.Trial, *history.Record) bool) (Life, error) {
	var rec history.Record
	done := course(t.sums.Begin(), &rec)
	if err := t.ctx.Err(); err != nil {
		return Life{}, err
	}
	if !done && !rec.Full {
		return Life{}, engine.NewBusyError(t.sys)
	}
	t.sums.End()
	life, err := newLife(t.sys, &rec, rnd)
	if err != nil {
		return Life{}, err
	}
	if t.kept += len(life.Events) + len(life.Defects) + len(life.Spans); t.kept > maxTogether {
		return Life{}, errTogether
	}
	return life, nil
}
