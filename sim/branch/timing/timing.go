// Package timing draws when within a window an event comes.
package timing

import (
	"math"

	"arrayodds/sim/law"
	"arrayodds/sim/stream"
)

// Truncated draws an exponential of mean 1 on condition that it is below h: the cumulative
// hazard at which an event comes, of those with h in all.
func Truncated(rnd *stream.Stream, h float64) float64 {
	return law.HazardOf(rnd.Float64() * law.Happens(h))
}

// Reached returns after how many hours of a window a cumulative hazard reaches target, from
// a first guess on. hazard returns it at x, with what to try next; where that lies outside
// of what is known, the middle is tried.
func Reached(window, target, guess float64, hazard func(x float64) (over, next float64)) float64 {
	x := guess
	low, high := 0.0, window
	for range 60 {
		over, next := hazard(x)
		if over < target {
			low = x
		} else {
			high = x
		}
		if !(next >= low && next <= high) {
			next = (low + high) / 2
		}
		if math.Abs(next-x) <= 1e-9*window {
			return next
		}
		x = next
	}
	return x
}
