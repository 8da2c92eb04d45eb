// Package exact has what can be said of an array's loss chance without
// simulating it, to stand beside the simulation and to check it.
//
// A [Chain] is one group of drives in which everything that happens has a
// constant rate. Its loss chance is computed to nearly all digits of a float64,
// however rare the loss.
//
// A [Textbook] is the closed formulas of the trade, which leave out more:
// restores are taken to be short against lives, and losses to come at an even
// rate from the first hour.
//
// Both are of one group; [AnyOf] tells of several. Hours and bytes throughout.
package exact

import "math"

// AnyOf is the chance that any of so many groups is lost, each with a chance of
// p (0 to 1) and independent of the others.
func AnyOf(groups int, p float64) float64 {
	return -math.Expm1(float64(groups) * math.Log1p(-p))
}

// degraded is what multiplies the failure rate of the others while so many
// drives are down.
func degraded(factor float64, down int) float64 {
	if factor == 0 {
		return 1
	}
	return math.Pow(factor, float64(down))
}
