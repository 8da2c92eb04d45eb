package evidence

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/elementary"
)

// Basis is the law of a drive before a log: what the multiplier multiplies, and the law of
// the multiplier.
type Basis struct {
	Life   array.Life
	Before array.Gamma
	Ground string // what Before rests on
}

// What the law before a log rests on.
const (
	groundRecord = "the drive's own record"
	groundFit    = "the errors of the drive's fit"
	groundRange  = "the site file's range of it"
	groundGuess  = "half to twice of it, a guess"
	groundSheet  = "datasheets' rates as they were seen in the field (Schroeder and Gibson, FAST 2007)"
)

// Given returns the basis of a drive with the ranges that the site file gives of its rate,
// none where it gives none. key is the one below life that states the rate; expected
// returns how many failures a law expects of the drives of the log.
func Given(l array.Life, key string, ranges []Range, expected func(array.Life) float64) Basis {
	switch l := l.(type) {
	case array.FieldRecord:
		a := l.Failures + 0.5
		return Basis{l, array.Gamma{Shape: a, Rate: a}, groundRecord}
	case array.FittedWeibull:
		if b, ok := fitted(l, ranges, expected); ok {
			return b
		}
	}
	if before, ok := Prior(ranges); ok {
		return Basis{l, before, groundRange}
	}
	before, _ := Prior([]Range{usualOf(key, l)})
	if key == "mtbf" {
		return Basis{l, before, groundSheet}
	}
	return Basis{l, before, groundGuess}
}

// fitted parts what a fit leaves open. The logarithm of the expected failures is taken as
// linear in those of shape and scale over one standard error to each side: its variance is
// the multiplier's, and the law that the two have once it is known is what is left. Ranges
// that the site file gives beside it come on top.
func fitted(l array.FittedWeibull, ranges []Range, expected func(array.Life) float64) (Basis, bool) {
	slope := func(shape, scale float64) float64 {
		at := func(way float64) float64 {
			return math.Log(expected(array.WeibullLife{Shape: l.Shape * elementary.Exp(way*shape), Scale: l.Scale * elementary.Exp(way*scale)}))
		}
		return (at(1) - at(-1)) / 2
	}
	if l.ShapeError == 0 && l.ScaleError == 0 {
		return Basis{}, false
	}
	u, v := slope(l.ShapeError, 0), slope(0, l.ScaleError) // by standard errors
	variance := u*u + v*v + 2*l.Correlation*u*v
	mean, square := moments(ranges)
	before, ok := gamma(mean, square/(mean*mean)*elementary.Exp(variance)-1)
	if !ok || math.IsNaN(variance) {
		return Basis{}, false
	}
	// Of two normal variates with a correlation, given that a sum of them is known.
	alongShape, alongScale := (u+l.Correlation*v)/math.Sqrt(variance), (v+l.Correlation*u)/math.Sqrt(variance)
	left := l
	left.ShapeError *= math.Sqrt(math.Max(0, 1-alongShape*alongShape))
	left.ScaleError *= math.Sqrt(math.Max(0, 1-alongScale*alongScale))
	left.Correlation = 0
	if cross := l.Correlation - alongShape*alongScale; left.ShapeError > 0 && left.ScaleError > 0 && cross != 0 {
		left.Correlation = math.Copysign(1, cross) // what is left has one direction
	}
	return Basis{left, before, groundFit}, true
}

// Updated returns the life after a log of so many failures in so many drive-days, where
// so many were expected, of drives whose hazard is multiplied by multiplier.
func (b Basis) Updated(failures, driveDays, expected, multiplier float64) array.Life {
	if r, ok := b.Life.(array.FieldRecord); ok {
		return array.FieldRecord{Failures: r.Failures + failures, DriveDays: r.DriveDays + multiplier*driveDays}
	}
	return array.UpdatedLife{Of: b.Life, Multiplier: b.Before.Updated(failures, expected)}
}
