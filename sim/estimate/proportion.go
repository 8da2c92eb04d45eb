package estimate

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Proportion returns a chance that was met in k of n trials, with the exact interval
// of C. J. Clopper and E. S. Pearson, "The use of confidence or fiducial limits
// illustrated in the case of the binomial", Biometrika 26, 1934.
func Proportion(k, n float64) Estimate {
	e := Estimate{Value: k / n, Low: 0, High: 1, RelativeError: 1}
	if k > 0 {
		e.Low = distuv.Beta{Alpha: k, Beta: n - k + 1}.Quantile(0.025)
		e.RelativeError = math.Sqrt((1 - k/n) / k)
	}
	if k < n {
		e.High = distuv.Beta{Alpha: k + 1, Beta: n - k}.Quantile(0.975)
	}
	return e
}

// Unseen returns the mean of what was seen in none of n lives, where each time that
// it happens counts as so much: 0, with the upper end that a Poisson count of 0
// leaves open. What counts as 0 cannot be seen and is [Exact].
func Unseen(n, each float64) Estimate {
	if each == 0 {
		return Exact(0)
	}
	return Estimate{High: -math.Log(0.025) / n * each, RelativeError: 1}
}
