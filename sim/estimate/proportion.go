package estimate

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Proportion estimates a chance from k cases in n, by the exact interval of Clopper
// and Pearson (Biometrika 26, 1934).
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

// NotSeen is the mean of what was not seen in n lives, each time being worth so
// much: nothing seen is not nothing, but no more than a Poisson count of 0
// allows.
func NotSeen(n, each float64) Estimate {
	return Estimate{High: -math.Log(0.025) / n * each, RelativeError: 1}
}
