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
	e := Estimate{Value: mean, Low: math.Max(0, mean-reach), High: mean + reach, RelativeError: 1}
	if mean > 0 {
		e.RelativeError = standardError / mean
	}
	return e
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
