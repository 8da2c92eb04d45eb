package plan

import (
	"math"

	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// kilograms returns a weight, to three digits.
func kilograms(kg float64) string { return unit.Digits(rounded(kg, 3), 3) + " kg" }

// rounded rounds to so many digits.
func rounded(x float64, digits int) float64 {
	if x == 0 {
		return 0
	}
	by := math.Pow10(digits - 1 - int(math.Floor(math.Log10(math.Abs(x)))))
	return math.Round(x*by) / by
}

// percent returns a share in per cent, to a tenth; what is not all of it is never so
// written.
func percent(share float64) string {
	x := math.Floor(share*1000) / 10
	return unit.Digits(x, 4) + " %"
}

// span returns the interval of an estimate.
func span(e estimate.Estimate, text func(float64) string) string {
	if e.Low == e.High {
		return text(e.Value)
	}
	return text(e.Low) + " to " + text(e.High)
}

// within returns an estimate with its interval in brackets.
func within(e estimate.Estimate) string {
	if !e.Known() {
		return "not known"
	}
	return figure.Number(e) + " (" + figure.Interval(e) + ")"
}

// odds returns a chance as odds with its interval in brackets.
func odds(e estimate.Estimate) string {
	if !e.Known() {
		return "not known"
	}
	text := figure.Odds(e)
	if e.High > e.Low && e.Value > 0 {
		text += " (" + figure.OddsInterval(e) + ")"
	}
	return text
}
