package evidence

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/elementary"
)

// Range is how far a multiplier could be off: its ends as times the likely value.
type Range struct{ Low, High float64 }

// Usual returns the range that is taken of a figure from which the failure rate of a drive
// follows, by its key below life, where the site file gives none: times the figure
// itself. Hardly anybody publishes how uncertain such figures are: but for that of
// datasheets these are guesses.
//
// A datasheet's mean time between failures of 1 000 000 h, 0.88 % a year, has been seen in
// the field as replacements of 2 to 4 % a year commonly, and up to 13 %: B. Schroeder, G.
// A. Gibson, "Disk failures in the real world", FAST 2007. So the range of such a figure
// goes down to 0.88 ÷ 13 of it. Its peak stays at what the datasheet says, which is what
// was entered; half of the law then lies above 1.9 % a year, and a tenth above 5.5 %.
func Usual(key string) Range {
	if key == "mtbf" {
		return Range{0.88 / 13, 1}
	}
	return Range{0.5, 2}
}

// usualOf returns the usual range of the multiplier of a law, by the key that states it.
func usualOf(key string, l array.Life) Range {
	r := Usual(key)
	power := 1.0
	switch l := l.(type) {
	case array.WeibullLife: // a longer life is a lower hazard
		power = -l.Shape
	case array.FittedWeibull:
		power = -l.Shape
	default:
		if key == "mtbf" {
			power = -1
		}
	}
	low, high := elementary.Pow(r.Low, power), elementary.Pow(r.High, power)
	return Range{math.Min(low, high), math.Max(low, high)}
}

// Prior returns the Gamma law with the mean and the variance of the product of independent
// multipliers, each triangular on a scale of ratios between the ends of its range with its
// peak at 1; false where there is no range. Ranges that leave next to nothing open are a
// rate that is known.
func Prior(ranges []Range) (array.Gamma, bool) {
	mean, square := moments(ranges)
	g, ok := gamma(mean, square/(mean*mean)-1)
	if !ok && len(ranges) > 0 {
		return narrow(mean), true
	}
	return g, ok
}

// moments returns the mean of that product, and of its square.
func moments(ranges []Range) (mean, square float64) {
	mean, square = 1, 1
	for _, r := range ranges {
		below, above := math.Log(math.Min(r.Low, 1)), math.Log(math.Max(r.High, 1))
		mean *= triangularMoment(below, above)
		square *= triangularMoment(2*below, 2*above)
	}
	return mean, square
}

// gamma returns the Gamma law of a mean and of a variance as a share of the mean's
// square, to the digits on which all processors agree; false where there is no variance.
func gamma(mean, variance float64) (array.Gamma, bool) {
	if !(variance > 1e-9) || math.IsInf(variance, 1) {
		return array.Gamma{}, false
	}
	return array.Gamma{Shape: rounded(1 / variance), Rate: rounded(1 / variance / mean)}, true
}

// narrow returns a Gamma law of a mean that is as good as known.
func narrow(mean float64) array.Gamma { return array.Gamma{Shape: 1e9, Rate: rounded(1e9 / mean)} }

func rounded(x float64) float64 { return digits(x, 12) }

// logMoments returns the mean and the variance of the logarithm of that product.
func logMoments(ranges []Range) (mean, variance float64) {
	for _, r := range ranges {
		below, above := math.Log(math.Min(r.Low, 1)), math.Log(math.Max(r.High, 1))
		mean += (below + above) / 3
		variance += (below*below + above*above - below*above) / 18
	}
	return mean, variance
}

// triangularMoment returns the mean of exp(X), X triangular from below, 0 or less, to
// above, 0 or more, with its peak at 0. On either side the density falls linearly.
func triangularMoment(below, above float64) float64 {
	if below == above {
		return 1
	}
	return (above*sideMean(above) - below*sideMean(below)) / (above - below)
}

// sideMean returns 2(e^d − 1 − d)/d², the mean of exp(X) where the density of X falls
// linearly from 0 to nothing at d.
func sideMean(d float64) float64 {
	if math.Abs(d) > 1 {
		return 2 * (elementary.Exp(d) - 1 - d) / (d * d)
	}
	sum, term := 0.0, 1.0
	for k := 2.0; k < 25; k++ { // 2·d^(k−2)/k!
		sum += term
		term *= d / (k + 1)
	}
	return sum
}
