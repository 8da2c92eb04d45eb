package predictive

import (
	"math"

	"arrayodds/array"

	"gonum.org/v1/gonum/mathext"
)

// Counts is the law of a number of failures before they are seen: Poisson with a mean that
// has a Gamma law, which is negative binomial.
type Counts struct {
	Shape float64 // of the Gamma law of the mean, above 0
	Rate  float64 // the same, above 0
}

// counted returns the law of the failures in a log, of drives of that batch variance.
func counted(l *array.Log, batchVariance float64) Counts {
	shape := l.Before.Shape
	if batchVariance > 0 { // the Gamma law with the mean and the variance of the product
		shape = 1 / ((1+1/shape)*(1+batchVariance) - 1)
	}
	return Counts{shape, shape / (l.Before.Mean() * l.Expected)}
}

// Mean returns the mean number.
func (c Counts) Mean() float64 { return c.Shape / c.Rate }

// AtMost returns the chance of k failures or fewer; 0 below 0.
func (c Counts) AtMost(k float64) float64 {
	if k < 0 {
		return 0
	}
	return mathext.RegIncBeta(c.Shape, k+1, c.Rate/(c.Rate+1))
}

// AtLeast returns the chance of k failures or more, to its own precision.
func (c Counts) AtLeast(k float64) float64 {
	if k <= 0 {
		return 1
	}
	return mathext.RegIncBeta(k, c.Shape, 1/(c.Rate+1))
}

// Range returns the numbers between which 95 % of the law lie, 2.5 % at most on either
// side.
func (c Counts) Range() (low, high float64) { return c.quantile(0.025), c.quantile(0.975) }

// quantile returns the least number that is not exceeded with that chance.
func (c Counts) quantile(p float64) float64 {
	high := 1.0
	for c.AtMost(high) < p && high < 1e12 {
		high *= 2
	}
	low := -1.0
	for high-low > 1 {
		if middle := math.Floor((low + high) / 2); c.AtMost(middle) >= p {
			high = middle
		} else {
			low = middle
		}
	}
	return high
}

// rare returns how rare a number is, by the nearer tail, twice: both ways of being rare
// count.
func (c Counts) rare(k float64) float64 {
	return math.Min(1, 2*math.Min(c.AtMost(k), c.AtLeast(k)))
}
