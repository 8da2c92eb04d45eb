// Package commoncause draws how many drives of each group a common-cause event strikes. By
// its law every running drive is struck with the same chance, so the number of a group is
// binomial; it is drawn from a mixture that favours many, with the weight that restores the
// law.
package commoncause

import (
	"arrayodds/sim/law"
	"arrayodds/sim/stream"
)

// Strikes is the law of what events strike. It keeps what it has worked out and must not be
// used by two goroutines at once. Make it with [New].
type Strikes struct {
	chance   float64        // of a drive
	tolerant bool           // groups stand a failure when they are whole
	laws     []law.Binomial // by running drives of a group
}

// New returns the strikes of events that strike a drive with a chance, on groups of so many
// drives with that tolerance.
func New(drives, tolerance int, chance float64) *Strikes {
	return &Strikes{chance: chance, tolerant: tolerance > 0, laws: make([]law.Binomial, drives+1)}
}

// Hit is what an event may do to one group, and what it did.
type Hit struct {
	Group   int
	Running int     // drives
	Spare   int     // failures that it can still take
	Over    float64 // chance that it takes more than that
	Struck  int     // drives
}

// Hit returns what an event may do to a group with so many running drives, which can take
// so many failures.
func (s *Strikes) Hit(group, running, spare int) Hit {
	return Hit{Group: group, Running: running, Spare: spare, Over: s.Law(running).Above[spare+1]}
}

// Law returns the law of how many of a group's running drives an event strikes. It
// is worked out when it is asked for: a large group is asked for with few of its numbers.
func (s *Strikes) Law(running int) *law.Binomial {
	l := &s.laws[running]
	if l.Chance == nil {
		*l = law.NewBinomial(running, s.chance)
	}
	return l
}

// Draw draws how many drives of each group fail: in half of the cases by
// the law, in the other half with one group, chosen at random, struck by some
// number that it survives, the largest most often. The weight restores the law. u is
// uniform: which half, which group and what number hang on it.
func (s *Strikes) Draw(rnd *stream.Stream, hits []Hit, u float64) (weight float64) {
	const none = -1
	favoured := none
	if s.tolerant && len(hits) > 0 {
		if u *= 2; u < 1 {
			u *= float64(len(hits))
			favoured = int(u)
			u -= float64(favoured)
		} else {
			u--
		}
	}
	for i := range hits {
		h := &hits[i]
		switch {
		case i == favoured:
			h.Struck = favouredNumber(h.Spare, u)
		case len(hits) == 1:
			h.Struck = s.Law(h.Running).Draw(u)
		default:
			h.Struck = s.Law(h.Running).Draw(rnd.Float64())
		}
	}
	if !s.tolerant || len(hits) == 0 {
		return 1
	}
	mean := 0.0
	for i := range hits {
		if h := &hits[i]; h.Struck <= h.Spare {
			mean += favours(h.Spare, h.Struck) / s.Law(h.Running).Chance[h.Struck]
		}
	}
	return 1 / (0.5 + 0.5*mean/float64(len(hits)))
}

// favouredNumber returns how many drives of a group are struck, at uniform u, where it is
// the favoured one and can take so many.
func favouredNumber(spare int, u float64) int {
	for n := range spare {
		if u -= favours(spare, n); u < 0 {
			return n
		}
	}
	return spare
}

// favours returns the chance of a number of struck drives in a favoured group that can take
// so many: it goes with the square of the number, since what follows goes up steeply with
// it.
func favours(spare, n int) float64 {
	if spare == 0 {
		return 1
	}
	return 6 * float64(n*n) / float64(spare*(spare+1)*(2*spare+1))
}
