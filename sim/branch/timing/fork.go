package timing

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/stream"
)

// Fork draws when in a window of so many hours a line forks: as the share of the chance of
// the window that lies before, from a share that is even. The weight restores that law.
//
// A fork leaves the failures that must still follow what is left of the hours until the
// group is restored by a level (or a spare comes back), so with m of them it counts as
// (1 − a·v)^m at the share v of a window that is the share a of the time until then. The
// draw is from that density mixed with the even one. total is the cumulative hazard of the
// window. alone is whether rebuilds come one after the other and nothing else is at work.
func Fork(rnd *stream.Stream, m int, window, left, total float64, alone bool, even float64) (share, weight float64) {
	if !(left > window) {
		left = window
	}
	a := window / left
	keep := evenShare(m, total/a, alone)
	if keep >= 1 || a < 1e-3 {
		return even, 1
	}
	end := 1 - power(1-a, m+1) // what lies within the window
	share = even
	if rnd.Float64() >= keep {
		share = (1 - root(1-even*end, m+1)) / a
	}
	density := float64(m+1) * a * power(1-a*share, m) / end
	return share, 1 / (keep + (1-keep)*density)
}

// evenShare returns the share of fork times that is drawn evenly, with m more failures to
// follow and so much hazard in the time until a group is restored by a level. Where
// failures are no rare thing in so long a time, a late fork counts too, for what comes
// after the level is restored.
//
// Where one rebuild comes after the other and nothing else is at work, all that a late
// fork is worth lies there, and few need to be even. Else it is worth what it does beside:
// it meets defects, it takes a spare, its wait goes on when the first one is over, and it
// lies in the way of common cause.
func evenShare(m int, hazard float64, alone bool) float64 {
	if alone {
		return aloneEven*float64(m) + evenPerHazard*hazard*hazard/(hazard+aloneHazard)
	}
	return evenForks + evenPerHazard*hazard
}

// Of fork times so many are drawn evenly: where failures are rare, and more of them for
// each failure to be expected in the time until a group is restored by a level: the
// intervals of many slow repairs side by side need that (package engine tests them). With
// rebuilds one after the other it is so many for each failure that must follow, and as
// many more only above a hazard.
const (
	evenForks     = 0.05
	evenPerHazard = 4
	aloneEven     = 0.005
	aloneHazard   = 0.05
)

// power returns x^n for a small n, 0 or more.
func power(x float64, n int) float64 {
	p := 1.0
	for range n {
		p *= x
	}
	return p
}

// root returns the nth root of x in [0, 1], n at least 1.
func root(x float64, n int) float64 {
	switch n {
	case 1:
		return x
	case 2:
		return math.Sqrt(x)
	case 3:
		return math.Cbrt(x)
	case 4:
		return math.Sqrt(math.Sqrt(x))
	}
	return elementary.Pow(x, 1/float64(n))
}
