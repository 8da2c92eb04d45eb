package engine

import (
	"context"
	"math"

	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

const (
	pilotLives  = 64
	fittedLives = 512
	// pilotWork is what a pilot by branching may take, about half a second, and one of
	// plain lives twice as much.
	pilotWork int64 = 5e6
	// pilotStream is the number of the streams of pilots, beyond those of blocks.
	pilotStream = 1 << 62
	// common is the loss chance below which the plain simulation is not tried.
	common = 0.02
	// After firstLives of a pilot by branching a loss chance below rare, a tenth of
	// common, is known to be no common one, unless so many plain lives had a loss.
	firstLives = 16
	rare       = common / 10
	// fewLosses is how many of a pilot's plain lives have a loss, at the least, where
	// the plain simulation is taken unseen for what it is better than: where branching
	// has no figure, or one that is doubted times smaller.
	fewLosses = 4
	doubted   = 4
	// longBlock is the work of a block, about a second, above which it has fewer lives.
	longBlock int64 = 1e7
	// fewestLives is how many those are at the least: the lives of an observation.
	fewestLives = model.Strata
)

// A way is how the lives of a run are simulated.
type way struct {
	plain bool
	lives int // of a block
}

// PlainServes reports whether a run should be plain: where that is asked for, and where
// losses are common and a pilot of each kind shows that plain lives are worth more for
// the work they take. It depends on the system and the seed alone. The error is that of
// the context.
func PlainServes(ctx context.Context, sys *model.System, opt Options) (bool, error) {
	if opt.Plain {
		return true, nil
	}
	w, err := choose(ctx, sys, opt)
	return w.plain, err
}

// choose chooses the way of a run, as [PlainServes] says, and how many lives its blocks
// have: [TrialsPerBlock], or fewer where each takes long.
func choose(ctx context.Context, sys *model.System, opt Options) (way, error) {
	if opt.Branching {
		return way{false, TrialsPerBlock}, nil
	}
	plain, branching := newPilot(sys, opt, true), newPilot(sys, opt, false)
	if err := plain.run(ctx, firstLives); err != nil || opt.Plain {
		return plain.way(), err
	}
	err := branching.run(ctx, firstLives)
	if err == nil && branching.ended && (branching.chance() >= rare || plain.losses > 0) {
		err = branching.run(ctx, pilotLives)
	}
	switch {
	case err != nil:
	case !branching.ended:
		err = plain.run(ctx, fittedLives)
	case branching.chance() >= common || plain.losses > 0:
		err = plain.run(ctx, pilotLives)
	}
	if err != nil {
		return way{}, err
	}
	better := plain.betterThan(branching)
	if better && branching.ended {
		// What the controls take out of the variance is known of so many lives only.
		if err := branching.run(ctx, fittedLives); err != nil {
			return way{}, err
		}
		better = !branching.ended || plain.betterThan(branching)
	}
	if better {
		return plain.way(), nil
	}
	return branching.way(), nil
}

// betterThan reports whether plain lives serve a run better than branching does.
func (p *pilot) betterThan(branching *pilot) bool {
	switch {
	case !branching.ended && p.tolerance == 0: // lines do not multiply, there are many events
		return p.losses >= min(fewLosses, p.lives) && p.perLife() < branching.perLife()
	case !branching.ended && p.losses < min(fewLosses, p.lives):
		return false
	case !branching.ended: // lines multiply without end, and how they vary is hardly known
		chance := p.chance()
		return (1-chance)/chance*p.perLife() < max(1, branching.variance())*branching.perLife()
	case p.losses >= fewLosses && p.chance() > doubted*branching.chance():
		return true // what branching has seen so far is not what counts
	case branching.chance() < common && p.losses < fewLosses:
		return false
	}
	// The variance of a plain life, relative to its mean, is (1 − p) ÷ p.
	chance := min(1, max(branching.chance(), p.chance()))
	return (1-chance)/chance*p.perLife() < branching.variance()*branching.perLife()
}

// variance returns the variance of the loss of a life by branching, relative to the
// square of its mean: without what the controls take out of it where lives are few.
func (p *pilot) variance() float64 {
	switch {
	case p.weight == 0:
		return math.Inf(1)
	case p.lives < fittedLives:
		return float64(p.lives)*p.squares/(p.weight*p.weight) - 1
	}
	e := model.NewFit(p.sums).Estimate(model.Loss).RelativeError
	return e * e * float64(p.lives)
}

// A pilot is a few lives of one kind, simulated to see what they are worth.
type pilot struct {
	simulator Simulator
	tolerance int
	sums      *model.Sums
	rnd       *stream.Stream
	lives     int     // with one that had a loss when its work was used up
	losses    int     // lives with a loss
	weight    float64 // of all losses of lives that ended
	squares   float64 // of those of each
	ended     bool    // all lives came to their end
}

func newPilot(sys *model.System, opt Options, plain bool) *pilot {
	p := &pilot{
		simulator: NewSimulator(sys, plain), tolerance: sys.Tolerance, sums: model.NewSums(sys),
		rnd: stream.New(opt.Seed, pilotStream), ended: true,
	}
	p.sums.MostWork, p.sums.FiguresOnly, p.sums.Plain = pilotWork, true, plain
	if plain {
		p.sums.MostWork *= 2
	}
	return p
}

// run goes on until there are so many lives, or until its work is used up.
func (p *pilot) run(ctx context.Context, lives int) error {
	defer context.AfterFunc(ctx, func() { p.sums.Stop.Store(true) })()
	for p.ended && p.lives < lives {
		if err := ctx.Err(); err != nil {
			return err
		}
		tr := p.sums.Begin()
		p.ended = p.simulator.Life(p.rnd, tr)
		lost := tr.Amounts[model.Loss]
		if lost > 0 {
			p.losses++
		}
		if p.ended {
			p.weight += lost
			p.squares += lost * lost
			p.sums.End()
		}
		if p.ended || lost > 0 {
			p.lives++
		}
	}
	return ctx.Err()
}

// chance returns the loss chance, roughly.
func (p *pilot) chance() float64 {
	if p.sums.Plain {
		return float64(p.losses) / float64(max(1, p.lives))
	}
	return p.weight / float64(max(1, p.lives))
}

// perLife returns the work of a life.
func (p *pilot) perLife() float64 { return float64(p.sums.Work) / float64(max(1, p.lives)) }

// way returns the way that the pilot tried.
func (p *pilot) way() way {
	lives := TrialsPerBlock
	for lives > fewestLives && float64(lives)*p.perLife() > float64(longBlock) {
		lives /= 2
	}
	return way{p.sums.Plain, lives}
}
