package exact

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/exact/markov"

	"gonum.org/v1/gonum/stat/combin"
)

// Chain is a group of drives as a Markov chain. Its states are 0 to Tolerance
// drives down, and lost, which it never leaves.
type Chain struct {
	Drives    int // in the group, above Tolerance
	Tolerance int // drives that may be down without loss, 0 or more

	FailurePerHour float64 // of one running drive, 0 or more
	RestorePerHour float64 // of a drive that is down, 0 (never) or more

	// Parallel restores every drive that is down at its own rate; otherwise
	// one at a time is restored.
	Parallel bool

	// DegradedFactor m makes the failure rate of the others m^k times as high
	// while k drives are down. 1 is none, and so is 0.
	DegradedFactor float64

	// At a common-cause event, which comes ShockPerHour (0 for never), each
	// running drive fails with a chance of ShockChance (0 to 1), independent of
	// the others.
	ShockPerHour, ShockChance float64
}

// LossBy returns the chance that the group, all of its drives running at first, is
// lost within so many hours, 0 or more.
//
// Only positive numbers are added and multiplied on the way, so the chance has
// some twelve right digits whether it is 0.1 or 1e-100; package markov says how.
// Chances below 1e-300 come out as 0 or with fewer digits.
func (c Chain) LossBy(hours float64) float64 { return c.rates().Reached(hours) }

// LossFrom returns the chance that the group, so many of its drives down at first (0 to
// Tolerance), is lost within so many hours, with as many digits as [Chain.LossBy].
func (c Chain) LossFrom(down int, hours float64) float64 {
	return c.rates().From(down).Reached(hours)
}

// LossBeforeWhole returns the chance that the group, so many of its drives down at first
// (1 to Tolerance), is lost within so many hours and before all of them run again.
func (c Chain) LossBeforeWhole(down int, hours float64) float64 {
	r := c.rates()
	clear(r[0]) // where all run the chain stays
	return r.From(down).Reached(hours)
}

// rates returns the rate, per hour, at which each state is left for each other one.
func (c Chain) rates() markov.Rates {
	lost := c.Tolerance + 1
	r := markov.NewRates(lost + 1)
	for down := range lost {
		running := c.Drives - down
		r[down][down+1] += float64(running) * c.FailurePerHour * degraded(c.DegradedFactor, down)
		if down > 0 {
			restores := 1.0
			if c.Parallel {
				restores = float64(down)
			}
			r[down][down-1] += restores * c.RestorePerHour
		}
		if c.ShockPerHour > 0 && c.ShockChance > 0 {
			for fail := 1; fail <= running; fail++ {
				to := min(down+fail, lost)
				r[down][to] += c.ShockPerHour * binomial(running, fail, c.ShockChance)
			}
		}
	}
	return r
}

// binomial returns the chance that k of n fail, each with chance q in (0, 1]. It is
// not the one of package branch, which this chain checks.
func binomial(n, k int, q float64) float64 {
	log := float64(k) * math.Log(q)
	if k < n {
		log += float64(n-k)*math.Log1p(-q) + combin.LogGeneralizedBinomial(float64(n), float64(k))
	}
	return elementary.Exp(log)
}
