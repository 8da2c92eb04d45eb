// Package effort says, by rough mean rates, how much there is to be done for what in the
// lives of a system: how many branches are followed. A wrong one costs time or accuracy,
// never truth.
package effort

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/branch/commoncause"
	"arrayodds/sim/model"
)

// Effort is what there is to be done for a system. Make it with [Of].
type Effort struct {
	Failure float64   // mean rate of failures of a drive, per hour
	Stay    []float64 // by level: cumulative hazard of a group over a mean stay
	// ByFailures is what there is to be done for losses by failures one after the other,
	// from 0 to 1: less than 1 where nearly all losses come by common cause, and more would
	// take most of the time, or widen what common cause does, for a small part of the figures.
	ByFailures float64
	Branches   float64 // branches that leave a stay at one level, at the most
	Seconds    float64 // failures in groups that have a drive down, expected in a life
}

// Of returns the effort for a system, at events that strike its drives so: nil where there
// are none.
func Of(sys *model.System, strikes *commoncause.Strikes) Effort {
	e := Effort{Failure: failureRate(sys), ByFailures: 1}
	e.Stay = stays(sys, e.Failure)
	if byShock := lostByShock(sys, strikes); byShock > 0 {
		e.ByFailures = min(1, math.Sqrt(fewByFailures*e.lostByForks(sys)/byShock))
	}
	e.Branches = e.branches(sys)
	if sys.Tolerance > 0 {
		e.Seconds = e.Failure * sys.Horizon * float64(sys.Groups()*sys.Drives) * e.Stay[1]
	}
	return e
}

// failureRate returns the mean rate of failures of a drive, per hour. Drives that wear
// out and are replaced fail at the rate of their mean life.
func failureRate(sys *model.System) float64 {
	return min(sys.Life.Cumulative(sys.Horizon)/sys.Horizon, 1/sys.Life.Mean())
}

// stays returns, by level, the cumulative hazard of a group over a mean stay.
func stays(sys *model.System, failure float64) (stay []float64) {
	r := &sys.Repair
	mean := r.Rebuild
	switch {
	case r.Restore != nil:
		mean = r.Restore.Mean()
	case sys.Spares == 0:
		mean += r.Notice.Mean() + r.Response.Mean()
	}
	perDrive := failure * min(mean, sys.Horizon)
	for k, m := range sys.Degraded {
		stay = append(stay, perDrive*m*float64(sys.Drives-k))
	}
	return stay
}

// Kept returns the share of branches that is kept, for each unit of their chance,
// where that adds up to about total: then up to most are, where what they are about
// is rare, and one where it is not and need not be forced.
func Kept(total, most float64) float64 { return max(1, min(most, 0.3/total)) / total }

// Forks returns the share of the forks of a stay that is kept, for each unit of their
// chance. Above 0.1 one serves: what leaves a stay forks again in the next.
func (e *Effort) Forks(chance float64) float64 { return Kept(chance, min(e.Branches, 0.1/chance)) }

// branches bounds the branches that leave a stay at one level. Branches
// branch: over all levels together they come to 64 at the most. Where failures make few
// of the losses, or other groups fail meanwhile, one of each level serves.
func (e *Effort) branches(sys *model.System) float64 {
	elsewhere := float64(sys.Groups()-1) * e.Stay[0]
	return max(1, e.ByFailures*math.Min(4, elementary.Pow(64, 1/float64(max(1, sys.Tolerance-1))))/(1+perElsewhere*elsewhere))
}

// perElsewhere is how much fewer forks there are, for each failure of other groups that is
// expected in a stay: these cut it into windows, and go on in every branch.
const perElsewhere = 16

// fewByFailures is how many times as many losses may come by common cause as by failures
// one after the other before there is less to be done for these.
const fewByFailures = 10

// lostByForks returns roughly the losses of a life by failures one after the other: a
// product of mean rates.
func (e *Effort) lostByForks(sys *model.System) float64 {
	multiplier := 1.0 // the mean of a life's
	if sys.Uncertain > 0 {
		multiplier = sys.Uncertain
	}
	losses := multiplier * e.Failure * sys.Horizon * float64(sys.Groups()*sys.Drives)
	first := 1
	if sys.Start != nil && !sys.Start.Whole() {
		first, losses = sys.Start.MostDown(sys.Drives), 1
	}
	for level := first; level <= sys.Tolerance; level++ {
		ends := multiplier * e.Stay[level]
		if level == sys.Tolerance && sys.Stop {
			ends += sys.ReadErrors + sys.Defects(sys.Horizon)*float64(sys.Drives-sys.Tolerance)
		}
		losses *= min(1, ends)
	}
	return losses
}

// lostByShock returns the losses of a life by common-cause events that find all drives
// running.
func lostByShock(sys *model.System, strikes *commoncause.Strikes) float64 {
	if strikes == nil {
		return 0
	}
	return sys.ShockRate * sys.Horizon * float64(sys.Groups()) * strikes.Law(sys.Drives).Above[sys.Tolerance+1]
}
