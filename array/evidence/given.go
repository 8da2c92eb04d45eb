package evidence

import (
	"arrayodds/array"
	"arrayodds/array/unit"
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
	groundRange  = "the site file's range of it"
	groundGuess  = "half to twice of it, a guess"
	groundSheet  = "datasheets' rates as they were seen in the field (Schroeder and Gibson, FAST 2007)"
)

// Given returns the basis of a drive with the ranges that the site file gives of its rate,
// none where it gives none. key is the one below life that states the rate. It is not for a
// fit with errors, of which [Refitted] is.
func Given(l array.Life, key string, ranges []Range) Basis {
	if l, ok := l.(array.FieldRecord); ok {
		a := l.Failures + 0.5
		mean, square := moments(ranges)
		if before, ok := gamma(mean, square/(mean*mean)*(1+1/a)-1); ok && len(ranges) > 0 {
			rate := array.ConstantRate{AFR: l.Expected(0, unit.HoursPerYear)}
			return Basis{rate, before, groundRecord + ", and " + groundRange}
		}
		return Basis{l, array.Gamma{Shape: a, Rate: a}, groundRecord}
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

// Updated returns the life after a log of so many failures in so many drive-days, where
// so many were expected, of drives whose hazard is multiplied by multiplier.
func (b Basis) Updated(failures, driveDays, expected, multiplier float64) array.Life {
	if r, ok := b.Life.(array.FieldRecord); ok {
		return array.FieldRecord{Failures: r.Failures + failures, DriveDays: r.DriveDays + multiplier*driveDays}
	}
	return array.UpdatedLife{Of: b.Life, Multiplier: b.Before.Updated(failures, expected)}
}
