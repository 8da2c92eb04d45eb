// Package multiplier draws what multiplies the hazards of drives for a whole life: the
// frailties of their batches, the rate behind a field record.
//
// Each is of a Gamma law. It is drawn tilted in a share of cases, with the power of the
// failures that a loss takes, and the weight restores the law.
package multiplier

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/stream"
)

// Draw draws from Gamma(a) in all but that share of cases, else from Gamma(a + r) or,
// with spares that may run out first, as often from Gamma(a + r + spares), with the
// weight that restores Gamma(a): the density of Gamma(a + r) is x^r·Γ(a) ÷ Γ(a + r)
// times that of Gamma(a).
func Draw(rnd *stream.Stream, a, r, spares, tilted float64) (x, weight float64) {
	u := rnd.Float64()
	keep := 1 - tilted
	switch {
	case u < keep:
		x = rnd.Gamma(a)
	case spares > 0 && u < (1+keep)/2:
		x = rnd.Gamma(a + r + spares)
	default:
		x = rnd.Gamma(a + r)
	}
	less, _ := math.Lgamma(a)
	ratio := func(r float64) float64 {
		more, _ := math.Lgamma(a + r)
		return elementary.Exp(r*math.Log(x) + less - more)
	}
	density := ratio(r)
	if spares > 0 {
		density = (density + ratio(r+spares)) / 2
	}
	return x, 1 / (keep + tilted*density)
}
