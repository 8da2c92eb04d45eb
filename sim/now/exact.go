package now

import (
	"arrayodds/sim/exact"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// Exact is the chances by the Markov chain that begins in the state.
type Exact struct{ BeforeWhole, Loss float64 }

// exactly returns the chances by the chain where it has every law that a first loss of the
// system depends on: one group with lives of constant rate, restored by an exponential law;
// nil elsewhere.
func exactly(sys *model.System) *Exact {
	life, constant := law.AsConstant(sys.Life)
	restore, exponential := law.AsExponential(sys.Repair.Restore)
	switch {
	case !constant || !exponential || sys.Groups() > 1 || sys.Tolerance == 0:
		return nil
	case sys.Uncertain > 0 || sys.Fitted != nil || sys.Frailty > 0:
		return nil
	case sys.Stop && (sys.LatentRate > 0 || sys.ReadErrors > 0 || sys.Start.Known()):
		return nil
	}
	for i := range sys.Start.Drives {
		if sys.Start.Drives[i].Done > 0 { // what is left of it has a law of its own
			return nil
		}
	}
	chain := exact.Chain{
		Drives: sys.Drives, Tolerance: sys.Tolerance, FailurePerHour: life.PerHour, RestorePerHour: 1 / float64(restore),
		Parallel: sys.Repair.Parallel, DegradedFactor: sys.Degraded[1], ShockPerHour: sys.ShockRate, ShockChance: sys.ShockChance,
	}
	down := sys.Start.MostDown(sys.Drives)
	e := &Exact{Loss: chain.LossFrom(down, sys.Horizon)}
	if down > 0 {
		e.BeforeWhole = chain.LossBeforeWhole(down, sys.Horizon)
	}
	return e
}
