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

// MaxLives is how many lives are told at a time, at the most.
const MaxLives = 100

// Lives are simulated lives of a choice, told in full.
type Lives struct {
	Lives []Life
	// LossChance is the chance that a life loses footage with a group: how rare
	// the lives are that do.
	LossChance estimate.Estimate
	// Warnings say why the lives, where only those with a loss are told, may not
	// be what losses look like; empty where they are.
	Warnings []string
}

// mostTogether is how many events, defects and spans all lives may have together:
// some hundred megabytes.
const mostTogether = 1000000

// A LongLifeError is a choice of which the lives have more to them than can be
// told: one of them, or all that were asked for together.
type LongLifeError struct {
	Choice   string
	Together bool
}

func (e *LongLifeError) Error() string {
	if e.Together {
		return fmt.Sprintf("choice %q: its lives have more than %d events, latent defects and spans together, and that is more than can be told; right would be fewer lives", e.Choice, mostTogether)
	}
	return fmt.Sprintf("choice %q: one of its lives has more than %d events or latent defects, and that is more than can be told; right would be fewer drives, lower rates of failures, defects or read errors, or a shorter life", e.Choice, history.MostEvents)
}

var errTogether = errors.New("too much together")

// ErrNoLoss is a choice of which no life with a loss was seen.
var ErrNoLoss = errors.New("no simulated life lost footage, so there is none to tell")

// Run tells n lives of a choice of a site, from 1 to MaxLives: as they
// come, or only such in which footage is lost with a group, drawn from the law
// of all lives on that condition. One seed gives the same lives for any number
// of workers; the first of them do not depend on n where they are told as they
// come. The errors are those of [Run], a [LongLifeError], and ErrNoLoss.
//
// The budget of trials is for the loss chance and, where only losses are told,
// for what they are drawn from.
func Run(ctx context.Context, site array.Site, choice array.Choice, n int, onlyLosses bool, opt engine.Options) (Lives, error) {
	if n < 1 || n > MaxLives {
		return Lives{}, fmt.Errorf("%d lives are asked for; right would be 1 to %d", n, MaxLives)
	}
	sys, err := model.New(site, choice)
	if err != nil {
		return Lives{}, err
	}
	opt.Plain = false
	tell := asTheyCome
	if onlyLosses {
		tell = conditionedOnLoss
	}
	lives, err := tell(ctx, sys, n, opt)
	if busy, ok := errors.AsType[*engine.BusyError](err); ok {
		busy.Choice = choice.Label
	}
	switch {
	case errors.Is(err, ErrLong):
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

// Streams of lives that are told lie far from those of the blocks of a run.
const (
	plainStreams = 1 << 62
	lossStreams  = 1 << 63
)

func asTheyCome(ctx context.Context, sys *model.System, n int, opt engine.Options) (Lives, error) {
	sums, _, err := engine.Simulate(ctx, sys, opt)
	if err != nil {
		return Lives{}, err
	}
	told := Lives{LossChance: sim.Summarise(sys, sums, false).LossChance}
	t := newTracer(ctx, sys)
	defer t.stop()
	for k := range n {
		rnd := stream.New(opt.Seed, plainStreams+uint64(k))
		life, err := t.life(rnd, func(tr *model.Trial, rec *history.Record) bool { return t.plain.Trace(rnd, tr, rec) })
		if err != nil {
			return Lives{}, err
		}
		told.Lives = append(told.Lives, life)
	}
	return told, nil
}

// tracer tells lives one by one, with bounded work.
type tracer struct {
	ctx   context.Context
	sys   *model.System
	plain *plain.Simulator
	sums  *model.Sums
	told  int // events, defects and spans
	stop  func() bool
}

func newTracer(ctx context.Context, sys *model.System) *tracer {
	t := &tracer{ctx: ctx, sys: sys, plain: plain.New(sys), sums: model.NewSums(sys)}
	t.sums.MostWork = engine.RunWork
	t.stop = context.AfterFunc(ctx, func() { t.sums.Stop.Store(true) })
	return t
}

// life tells the life of the record that course fills.
func (t *tracer) life(rnd *stream.Stream, course func(*model.Trial, *history.Record) bool) (Life, error) {
	var rec history.Record
	done := course(t.sums.Begin(), &rec)
	if err := t.ctx.Err(); err != nil {
		return Life{}, err
	}
	if !done && !rec.Full {
		return Life{}, &engine.BusyError{Failures: engine.ExpectedFailures(t.sys)}
	}
	t.sums.End()
	life, err := NewLife(t.sys, &rec, rnd)
	if err != nil {
		return Life{}, err
	}
	if t.told += len(life.Events) + len(life.Defects) + len(life.Spans); t.told > mostTogether {
		return Life{}, errTogether
	}
	return life, nil
}
