package estimate

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Quantile returns a quantile of sorted values with the interval between two of them whose
// ranks a binomial law gives: W. J. Conover, Practical Nonparametric Statistics, 1971
// (from memory).
func Quantile(sorted []float64, share float64) Estimate {
	n := float64(len(sorted))
	law := distuv.Normal{Mu: n * share, Sigma: math.Sqrt(n * share * (1 - share))}
	at := func(rank float64) float64 {
		return sorted[min(max(int(math.Ceil(rank))-1, 0), len(sorted)-1)]
	}
	return FromInterval(at(n*share), at(law.Quantile(0.025)), at(law.Quantile(0.975)+1))
}
