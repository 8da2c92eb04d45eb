package sim

import (
	"math"

	"arrayodds/sim/exact"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// exactLoss returns the loss chance by the Markov chain's transient solution, where
// every law that a first loss depends on is exponential; nil elsewhere.
//
// Where nothing is tolerated the first loss waits for no repair, so any repair
// law will do. Defects and read errors do not come into a first loss under skip;
// under stop they make the chain depend on ages and lengths, and there is none.
func exactLoss(sys *model.System) *float64 {
	life, ok := law.AsConstant(sys.Life)
	if !ok || sys.Uncertain > 0 || sys.Fitted != nil || sys.Frailty > 0 {
		return nil
	}
	if sys.Stop && (sys.LatentRate > 0 || sys.ReadErrors > 0) {
		return nil
	}
	groups := sys.Groups()
	if sys.ShockRate > 0 && groups > 1 && sys.Tolerance > 0 {
		return nil // one event strikes all groups: they are not independent
	}
	chain := exact.Chain{
		Drives: sys.Drives, Tolerance: sys.Tolerance,
		FailurePerHour: life.PerHour, Parallel: sys.Repair.Parallel,
		ShockPerHour: sys.ShockRate, ShockChance: sys.ShockChance,
	}
	if sys.Tolerance == 0 {
		// The first failure of any drive, by whatever cause: one group of all.
		chain.Drives *= groups
		groups = 1
	} else {
		// Hot spares do not cut a restore short that is given as a whole.
		restore, ok := law.AsExponential(sys.Repair.Restore)
		if !ok {
			return nil
		}
		chain.RestorePerHour = 1 / float64(restore)
		chain.DegradedFactor = sys.Degraded[1]
	}
	p := exact.AnyOf(groups, chain.LossBy(sys.Horizon))
	return &p
}

// textbookLoss is the loss chance by the textbook formula, from means alone.
func textbookLoss(sys *model.System) *float64 {
	book := exact.Textbook{
		Drives: sys.Drives, Tolerance: sys.Tolerance,
		MTTF: meanLife(sys), MTTR: meanRestore(sys),
	}
	if sys.Stop && sys.ReadErrors > 0 {
		// In ReadErrors the bytes and the bits per error come as one number.
		book.Capacity = sys.ReadErrors / 8 / float64(sys.Drives-sys.Tolerance)
		book.BitsPerError = 1
	}
	p := book.LossChance(float64(sys.Groups()), sys.Horizon)
	if math.IsNaN(p) {
		return nil
	}
	return &p
}

// meanLife returns the mean of the life law in hours. Of a field record's, whose mean life
// diverges for the thinnest records, it is 1 ÷ the mean rate.
func meanLife(sys *model.System) float64 {
	mean := sys.Life.Mean()
	if sys.Uncertain > 0 {
		mean /= sys.Uncertain
	}
	return mean
}

// meanRestore returns the mean hours from failure to restored, as the site means it
// to go: with hot spares the rebuild alone.
func meanRestore(sys *model.System) float64 {
	r := &sys.Repair
	switch {
	case r.Restore != nil:
		return r.Restore.Mean()
	case sys.Spares > 0:
		return r.Rebuild
	}
	return r.Notice.Mean() + r.Response.Mean() + r.Rebuild
}
