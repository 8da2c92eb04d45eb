package branch

import (
	"math"

	"arrayodds/array/elementary"
)

// Windows are short against lives, so most cumulative hazards are small. For
// those, series give what Expm1 and Log1p give, to 14 digits and without their
// cost; above, Exp and Log lose no more than two digits to the 1.
const small = 1.0 / 128

// happens returns 1 − exp(−h), the chance of an event with cumulative hazard h.
func happens(h float64) float64 {
	if h < small {
		return h * (1 - h*(1.0/2-h*(1.0/6-h*(1.0/24-h*(1.0/120-h*(1.0/720))))))
	}
	return 1 - elementary.Exp(-h)
}

// hazardOf returns −log(1 − p), the cumulative hazard of an event of chance p.
func hazardOf(p float64) float64 {
	if p < small {
		return p * (1 + p*(1.0/2+p*(1.0/3+p*(1.0/4+p*(1.0/5+p*(1.0/6+p*(1.0/7)))))))
	}
	return -math.Log(1 - p)
}

// truncated draws an exponential of mean 1 on condition that it is below h.
func (b *Simulator) truncated(h float64) float64 {
	return hazardOf(b.rnd.Float64() * happens(h))
}
