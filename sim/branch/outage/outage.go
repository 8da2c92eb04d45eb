// Package outage draws how long outages last: each length is drawn twice, once by its law,
// for the line that goes on, and once tilted, for its twin.
package outage

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// Length is a length that is drawn twice. Make it with [OfRepair] or [OfSpare].
type Length struct {
	sum   *law.Sum
	power []int   // by the failures still needed: the tilt that serves
	less  float64 // what sum has beyond the length that was asked for
}

// OfRepair returns the wait of a drive without a spare and, of systems that have a law of
// it, the whole restoring; the other one of them is zero.
func OfRepair(sys *model.System) (wait, restore Length) {
	r := &sys.Repair
	if r.Restore != nil {
		fixed, rest := r.Restore.Parts()
		return wait, newLength(sys, sys.Tolerance, sys.Drives, 0, fixed, rest)
	}
	// The window in which further failures count is the wait and the rebuild
	// together, so together they are tilted.
	fixed, rest := r.Notice.Parts()
	more := r.Rebuild
	if r.Response.Open != nil {
		more += r.Response.Mean()
		return newLength(sys, sys.Tolerance, sys.Drives, more, fixed+more, rest), restore
	}
	late, last := r.Response.Law.Parts()
	return newLength(sys, sys.Tolerance, sys.Drives, more, fixed+late+more, rest, last), restore
}

// OfSpare returns how long a hot spare is out, where that does not go by open hours, tilted
// by up to so many further failures.
func OfSpare(sys *model.System, need int) Length {
	fixed, rest := sys.Repair.Restock.Law.Parts()
	return newLength(sys, need, sys.Groups()*sys.Drives, 0, fixed, rest)
}

func newLength(sys *model.System, need, drives int, less, fixed float64, laws ...law.Tiltable) Length {
	var random []law.Tiltable
	for _, l := range laws {
		if l != nil {
			random = append(random, l)
		}
	}
	o := Length{sum: law.NewSum(need+1, fixed, random...), less: less, power: make([]int, need+1)}
	// Beyond the length at which a further failure is all but certain, or the
	// life is over, a longer one is no more dangerous, and tilting towards it
	// only wastes draws.
	enough := sys.Horizon
	if mean := sys.Life.Cumulative(sys.Horizon) * float64(drives); mean > 0 && sys.Uncertain == 0 {
		enough = min(enough, sys.Horizon/mean)
	}
	for r := 1; r <= need; r++ {
		o.power[r] = 1
		for p := 2; p <= r && o.sum.MeanTilted(p) < enough; p++ {
			o.power[r] = p
		}
	}
	return o
}

// Random reports whether chance has a part in the length, so that it must be drawn twice.
func (o *Length) Random() bool { return o.sum != nil && o.sum.Random() }

// Draw draws the length by its law, in hours.
func (o *Length) Draw(rnd *stream.Stream) float64 { return o.sum.Draw(rnd) - o.less }

// DrawTilted draws the length from the mixture that is tilted for so many further failures,
// with the weight that restores its law.
func (o *Length) DrawTilted(rnd *stream.Stream, need int) (hours, weight float64) {
	hours, weight = o.sum.DrawMixed(rnd, o.power[min(need, len(o.power)-1)])
	return hours - o.less, weight
}

// AsExponential returns the mean of the exponential length that has the outage's mean or,
// where that is longer, its rth moment. Several that run side by side end as often as
// there are of them, so the mean serves where they are fixed: r failures within one are
// as likely.
func (o *Length) AsExponential(r int) float64 {
	g, _ := math.Lgamma(float64(r + 1))
	return elementary.Exp(max(o.sum.LogMoment(1), (o.sum.LogMoment(r)-g)/float64(r)))
}
