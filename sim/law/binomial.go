package law

import (
	"math"

	"arrayodds/array/elementary"

	"gonum.org/v1/gonum/stat/combin"
)

// Binomial is the law of how many of a number of drives a common-cause event
// strikes. Make it with [NewBinomial].
type Binomial struct {
	Chance []float64 // of exactly k
	Above  []float64 // of k or more; one longer, so that Above[n+1] is 0
}

// NewBinomial returns the law for n drives, each struck with chance q. The tail is
// summed from its own terms, so that a small one keeps its digits.
func NewBinomial(n int, q float64) Binomial {
	l := Binomial{make([]float64, n+1), make([]float64, n+2)}
	for k := range l.Chance {
		l.Chance[k] = binomialChance(n, k, q)
	}
	for k := n; k >= 0; k-- {
		l.Above[k] = min(1, l.Above[k+1]+l.Chance[k])
	}
	return l
}

// Draw returns the number that belongs to a uniform u.
func (l *Binomial) Draw(u float64) int {
	for k, p := range l.Chance {
		if u -= p; u < 0 {
			return k
		}
	}
	return len(l.Chance) - 1
}

// DrawWithin returns the number that belongs to a uniform u on condition that it
// lies from low to high.
func (l *Binomial) DrawWithin(u float64, low, high int) int {
	total := 0.0
	for k := low; k <= high; k++ {
		total += l.Chance[k]
	}
	u *= total
	for k := low; k < high; k++ {
		if u -= l.Chance[k]; u < 0 {
			return k
		}
	}
	return high
}

// binomialChance returns the chance of k out of n, each with chance q in (0, 1].
// distuv.Binomial cannot be used: it gives NaN for q = 1, and its log(1 - q) loses
// the digits of a small q.
func binomialChance(n, k int, q float64) float64 {
	if q == 1 {
		if k == n {
			return 1
		}
		return 0
	}
	return elementary.Exp(combin.LogGeneralizedBinomial(float64(n), float64(k)) + float64(k)*math.Log(q) + float64(n-k)*math.Log1p(-q))
}
