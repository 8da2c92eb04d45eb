package exact

import "math"

// AnyOf returns the chance that any of so many groups is lost, each with a chance of
// p (0 to 1) and independent of the others.
func AnyOf(groups int, p float64) float64 {
	return -math.Expm1(float64(groups) * math.Log1p(-p))
}

// degraded returns what multiplies the failure rate of the others while so many
// drives are down.
func degraded(factor float64, down int) float64 {
	if factor == 0 {
		return 1
	}
	return math.Pow(factor, float64(down))
}
