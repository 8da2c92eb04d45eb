package simtest

import (
	"math"

	"arrayodds/sim/estimate"
)

// StandardErrors returns how many standard errors an estimate is from the truth.
func StandardErrors(e estimate.Estimate, truth float64) float64 {
	if e.RelativeError == 0 {
		if math.Abs(e.Value-truth) <= 1e-9*truth {
			return 0
		}
		return math.Inf(1)
	}
	return (e.Value - truth) / (e.Value * e.RelativeError)
}
