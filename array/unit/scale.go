package unit

import "strconv"

// A Step is one of the units that a quantity may be shown in.
type Step struct {
	Least  float64 // the smallest quantity shown in this unit
	Factor float64 // the unit, in what the quantity is counted in
	Name   string
	Round  func(count float64) float64 // what a count of the unit is shown as
}

// Scale returns v as a rounded count of the largest unit that it reaches. Steps
// stand with the largest unit first; the last takes whatever is left.
//
// A quantity that rounds to the least of a unit is shown in that unit: 59.97 s
// is 1 min, not 60 s. So what is shown never depends on what rounding hides, and
// what is shown, read and shown again stays the same.
func Scale(v float64, steps []Step) (count float64, name string) {
	last := len(steps) - 1
	for i, s := range steps[:last] {
		if v >= s.Least {
			return s.Round(v / s.Factor), s.Name
		}
		below := steps[i+1]
		if below.Round(v/below.Factor) >= below.Round(s.Least/below.Factor) {
			return s.Round(s.Least / s.Factor), s.Name
		}
	}
	s := steps[last]
	return s.Round(v / s.Factor), s.Name
}

// figures is how many significant digits quantities are shown to.
const figures = 3

func toFigures(count float64) float64 { return toDigits(count, figures) }

// toDigits rounds v to so many significant digits, as decimals round: by way of
// the text, since 'e' rounds v itself and not a multiple of it.
func toDigits(v float64, digits int) float64 {
	rounded, _ := strconv.ParseFloat(strconv.FormatFloat(v, 'e', digits-1, 64), 64)
	return rounded
}
