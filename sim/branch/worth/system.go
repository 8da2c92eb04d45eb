package worth

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/branch/outage"
	"arrayodds/sim/model"
)

// shortest stands for lengths of 0 hours, which have no rate; one this short is as good.
const shortest = 1e-6

// Of returns the states of a system whose drives fail at a mean rate and wait so long, with
// how long a spare is out, which has no chance in it where it goes by open hours. There are
// none where no spares can be out: states is nil then.
func Of(sys *model.System, failure float64, wait *outage.Length) (states *States, restock outage.Length) {
	r := &sys.Repair
	if sys.Spares == 0 || sys.Tolerance == 0 || r.Restore != nil || r.Restock.Mean() < shortest {
		return nil, restock
	}
	steps := min(sys.Spares, MaxSpares)
	back := 1 / r.Restock.Mean()
	if r.Restock.Open == nil {
		restock = outage.OfSpare(sys, steps)
		back = 1 / restock.AsExponential(steps)
	}
	return New(sys.Tolerance, sys.Spares, &Rates{
		Failure: failure, Degraded: sys.Degraded, Drives: sys.Drives, Groups: sys.Groups(),
		Wait: 1 / max(shortest, wait.AsExponential(sys.Tolerance)), Rebuild: rebuildRate(sys),
		Parallel: r.Parallel, Restock: back,
	}), restock
}

// rebuildRate returns the rate at which the chain ends rebuilds. One at a
// time, it is that of the exponential length that has the moment which counts.
func rebuildRate(sys *model.System) float64 {
	length := max(shortest, sys.Repair.Rebuild)
	if sys.Repair.Parallel {
		return 1 / length
	}
	r := float64(sys.Tolerance)
	g, _ := math.Lgamma(r + 1)
	return elementary.Exp(g/r) / length
}
