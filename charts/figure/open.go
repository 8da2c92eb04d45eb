package figure

import (
	"math"

	"arrayodds/sim"
)

// Bounded writes the value of e and its 95 % interval, of which either end may
// be missing: Low is then 0 and High infinite.
func Bounded(e sim.Estimate) (value, interval string) {
	switch {
	case !math.IsInf(e.High, 1):
		return Number(e), Interval(e)
	case e.Low > 0:
		half := e.Value - e.Low
		place := Place(e.Value, half) - 1
		return number(e.Value, place+1), number(down(e.Low, place), place) + " and more"
	}
	return number(e.Value, exponent(e.Value)), "not bounded"
}
