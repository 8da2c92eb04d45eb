package figure

import (
	"math"

	"arrayodds/sim/estimate"
)

// Ratio writes a ratio of chances to what its interval supports: "3.1". It is "beyond
// all bounds" where it is infinite and "not known" where it is NaN.
func Ratio(e estimate.Estimate) string {
	switch {
	case math.IsNaN(e.Value):
		return "not known"
	case math.IsInf(e.Value, 0):
		return "beyond all bounds"
	case math.IsNaN(e.Low) || math.IsNaN(e.High):
		return Number(estimate.Estimate{Value: e.Value, Low: 0.95 * e.Value, High: 1.05 * e.Value})
	}
	value, _ := Bounded(e)
	return value
}

// RatioInterval writes the 95 % interval of a ratio of chances, "2.9 to 3.3".
func RatioInterval(e estimate.Estimate) string {
	if math.IsNaN(e.Value) || math.IsInf(e.Value, 0) || math.IsNaN(e.Low) || math.IsNaN(e.High) {
		return "not known"
	}
	_, interval := Bounded(e)
	return interval
}
