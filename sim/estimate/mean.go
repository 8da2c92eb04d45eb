package estimate

import "math"

// Mean returns the mean over n trials that add up to sum, their squares to squares,
// with an interval by the normal limit. Trials are 0 or more, and the low end is not
// below 0. Where all trials are equal the mean is [Exact].
func Mean(n, sum, squares float64) Estimate {
	m := sum / n
	if sum == 0 {
		return Exact(0)
	}
	spread := math.Max(0, squares/n-m*m)
	if spread < 1e-12*m*m { // what rounding leaves of a sum of equal terms
		return Exact(m)
	}
	se := math.Sqrt(spread / (n - 1))
	return Estimate{Value: m, Low: math.Max(0, m-Z95*se), High: m + Z95*se, RelativeError: se / m}
}
