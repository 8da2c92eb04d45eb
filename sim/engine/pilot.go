package engine

import (
	"context"

	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

const (
	pilotLives       = 64
	pilotWork  int64 = 5e6 // about half a second
	// pilotStream is the number of the streams of pilots, beyond those of blocks.
	pilotStream = 1 << 62
	// common is the loss chance below which the plain simulation is not tried.
	common = 0.02
	// After firstLives of a pilot by branching a loss chance below rare, a tenth of
	// common, is known to be no common one.
	firstLives = 16
	rare       = common / 10
	// fewLosses is how many of a pilot's plain lives have a loss, at the least, where
	// the plain simulation is taken unseen for what it is better than.
	fewLosses = 4
)

// PlainServes reports whether a run should be plain: where that is asked for, and where
// losses are common and a pilot of each kind shows that plain lives are worth more for
// the work they take. It depends on the system and the seed alone. The error is that of
// the context.
func PlainServes(ctx context.Context, sys *model.System, opt Options) (bool, error) {
	if opt.Plain || opt.Branching {
		return opt.Plain, nil
	}
	branching, ended, err := pilot(ctx, sys, opt.Seed, false, pilotWork)
	if err != nil {
		return false, err
	}
	chance := branching.Sum[model.Loss] / pilotLives // too small where few lives were enough, and rare all the same
	if ended && chance < common {
		return false, nil
	}
	// Where branching multiplies lines without end, all that can be had is plain lives, long
	// as they may be: so many as a block of them may be are seen within twice the work.
	work := pilotWork
	if !ended {
		work *= 2
	}
	plain, _, err := pilot(ctx, sys, opt.Seed, true, work)
	if err != nil || plain.N == 0 {
		return false, err
	}
	losses := plain.Sum[model.Loss]
	if !ended {
		return losses >= fewLosses, nil
	}
	// The variance of a plain life, relative to its mean, is (1 − p) ÷ p; what a life
	// of the other kind has is in its effective number of samples.
	chance = min(1, max(chance, losses/plain.N))
	ofPlain := (1 - chance) / chance * float64(plain.Work) * (pilotLives / plain.N)
	ofBranching := (pilotLives/branching.EffectiveSamples() - 1) * float64(branching.Work)
	return ofPlain < ofBranching, nil
}

// pilot runs a few lives and reports whether all of them ended within that work.
func pilot(ctx context.Context, sys *model.System, seed uint64, plain bool, work int64) (s *model.Sums, ended bool, err error) {
	s = model.NewSums(sys)
	s.MostWork, s.FiguresOnly = work, true
	defer context.AfterFunc(ctx, func() { s.Stop.Store(true) })()
	rnd := stream.New(seed, pilotStream)
	simulator := NewSimulator(sys, plain)
	for i := range pilotLives {
		if i == firstLives && !plain && s.Sum[model.Loss] < rare*firstLives {
			break
		}
		if err := ctx.Err(); err != nil {
			return s, false, err
		}
		if !simulator.Life(rnd, s.Begin()) {
			return s, false, ctx.Err()
		}
		s.End()
	}
	return s, true, nil
}
