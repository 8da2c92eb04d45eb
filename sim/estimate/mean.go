package estimate

import "math"

// FromError returns the estimate of a mean, 0 or more, of that standard error, which
// was itself estimated with so many degrees of freedom. The low end is not below 0.
// Without an error it is [Exact].
func FromError(mean, standardError, free float64) Estimate {
	mean = math.Max(0, mean)
	if !(standardError > 0) {
		return Exact(mean)
	}
	reach := Student95(free) * standardError
	return Estimate{Value: mean, Low: math.Max(0, mean-reach), High: mean + reach, RelativeError: standardError / mean}
}

// Student95 returns the 97.5 % point of Student's t law with so many degrees of
// freedom: the expansion of E. A. Cornish and R. A. Fisher, "Moments and cumulants in
// the specification of distributions", 1938 (from memory), right to three digits from
// five degrees on.
func Student95(free float64) float64 {
	if !(free > 2) {
		free = 2
	}
	const z, z2 = Z95, Z95 * Z95
	first := z * (z2 + 1) / 4
	second := z * (5*z2*z2 + 16*z2 + 3) / 96
	third := z * (3*z2*z2*z2 + 19*z2*z2 + 17*z2 - 15) / 384
	return z + (first+(second+third/free)/free)/free
}

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
