package law

import (
	"math"

	"arrayodds/array/elementary"
)

// small is below what series serve. Windows are short against lives, so most cumulative hazards are small. For
// those, series give what Expm1 and Log1p give, to 14 digits and without their
// cost; above, Exp and Log lose no more than two digits to the 1.
const small = 1.0 / 16

// Happens returns 1 − exp(−h), the chance of an event with cumulative hazard h.
func Happens(h float64) float64 {
	if h < small {
		return h * (1 - h*(1.0/2-h*(1.0/6-h*(1.0/24-h*(1.0/120-h*(1.0/720-h*(1.0/5040-h*(1.0/40320))))))))
	}
	return 1 - elementary.Exp(-h)
}

// HazardOf returns −log(1 − p), the cumulative hazard of an event of chance p: for a small
// one, twice the inverse hyperbolic tangent of p ÷ (2 − p).
func HazardOf(p float64) float64 {
	if p < small {
		s := p / (2 - p)
		t := s * s
		return 2 * s * (1 + t*(1.0/3+t*(1.0/5+t*(1.0/7+t*(1.0/9)))))
	}
	return -math.Log(1 - p)
}
