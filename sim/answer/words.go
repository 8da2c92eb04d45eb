package answer

import (
	"math"

	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// Class is the number of sites of the class of reference.
const Class = 10_000

// InClass returns a chance as so many sites of the class: "about 13 of 10 000".
func InClass(e estimate.Estimate) string {
	of := " of " + figure.Whole(Class)
	n := e.Value * Class
	switch {
	case !e.Known():
		return "not known"
	case e.Value == 0 && e.High > 0:
		return "none seen" + of
	case e.Value == 0:
		return "none" + of
	case n < 0.5:
		return "fewer than 1" + of
	case n > Class-1:
		return "all" + of
	}
	return "about " + figure.Whole(digits2(n)) + of
}

// Icons returns how many of the class an icon array marks, at least 1 for any chance that
// is drawn as one; below half a site it is 0.
func Icons(e estimate.Estimate) int {
	if !e.Known() {
		return 0
	}
	return int(math.Round(math.Min(1, e.Value) * Class))
}

// digits2 rounds to two digits.
func digits2(x float64) float64 {
	if x < 1 {
		return 1
	}
	unit := math.Pow(10, math.Floor(math.Log10(x))-1)
	if unit < 1 {
		unit = 1
	}
	return math.Round(x/unit) * unit
}

// leastDoubt is the half-width, as a share, that no figure is told more exactly than.
const leastDoubt = 0.05

// Rough returns an estimate with an interval that is no narrower than the digits that a
// reader should be given.
func Rough(e estimate.Estimate) estimate.Estimate {
	if e.Value > 0 {
		e.Low, e.High = math.Min(e.Low, e.Value*(1-leastDoubt)), math.Max(e.High, e.Value*(1+leastDoubt))
	}
	return e
}

// Odds returns a chance as odds to the digits that a reader should be given.
func Odds(e estimate.Estimate) string { return figure.Odds(Rough(e)) }

// Percent returns a share of 0 to 1 in whole per cent; what is neither none nor all is
// told from them.
func Percent(x float64) string {
	switch {
	case math.IsNaN(x):
		return "not known"
	case x > 0 && x < 0.01:
		return "under 1 %"
	case x < 1 && x > 0.99:
		return "over 99 %"
	}
	return figure.Whole(math.Round(100*x)) + " %"
}

// Times returns how many times one thing is another, to two digits.
func Times(x float64) string {
	if x < 10 {
		return figure.Plain(math.Round(x*10) / 10)
	}
	if x >= 1e6 {
		return figure.Number(Rough(estimate.Exact(x)))
	}
	return figure.Whole(digits2(x))
}
