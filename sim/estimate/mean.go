package estimate

import "math"

// Mean estimates the mean of trials that add up to sum, their squares to
// squares.
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
