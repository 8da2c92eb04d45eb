package figure

import (
	"math"

	"arrayodds/sim/estimate"
)

// Bounded writes the value of e and its 95 % interval, of which either end may
// be missing: Low is then 0 and High infinite.
func Bounded(e estimate.Estimate) (value, interval string) {
	switch {
	case !math.IsInf(e.High, 1) && e.High > 10*e.Value && e.Low > 0:
		// So lopsided that the half-width says nothing of the low end.
		low, high := exponent(e.Low)-1, exponent(e.High)-1
		return number(e.Value, exponent(e.Value)), number(down(e.Low, low), low) + " to " + number(up(e.High, high), high)
	case !math.IsInf(e.High, 1):
		return Number(e), Interval(e)
	case e.Low > 0:
		half := e.Value - e.Low
		place := Place(e.Value, half) - 1
		return number(e.Value, place+1), number(down(e.Low, place), place) + " and more"
	}
	return number(e.Value, exponent(e.Value)), "not bounded"
}

// Significance writes the p of a test, to two digits. Below a millionth it says
// so and no more: the law of the test is not known so far out.
func Significance(p float64) string {
	if p < 1e-6 {
		return "< 10⁻⁶"
	}
	return number(p, exponent(p)-1)
}
