package elementary

import "math"

// A length of ln 2 ÷ 32: its first 37 bits, so that products with the integers in use are
// exact, and the rest.
const (
	stepHigh = 0x1.62e42fef8p-6
	stepLow  = math.Ln2/32 - stepHigh
)

// small is what a number is below where four terms of the series give e to its power.
const small = 1.0 / (1 << 14)

// Exp returns e^x, off by less than 0.53 of the last place where it is not below 1e-307.
func Exp(x float64) float64 { return expOfSum(x, 0) }

// expOfSum returns e^(x + low), low below the last place of x.
func expOfSum(x, low float64) float64 {
	switch {
	case x != x || x > 709.79:
		return x * math.Inf(1) // +Inf, or no number
	case x < -745.14:
		return 0
	case math.Abs(x) < small && low == 0:
		return 1 + x*(1+x*(0.5+x*(1.0/6))) // x^4/4! is below 2^-60
	}
	// x = (32·e + j)·ln 2/32 + r, and so e^x is 2^e · 2^(j/32) · e^r with r within
	// ±0.011.
	k := math.Floor(x*(32/math.Ln2) + 0.5)
	r := x - k*stepHigh
	r += low - k*stepLow
	// e^r − 1 by its Taylor series; r^7/7! is below 2^-58 of 1.
	p := r + r*r*((0.5+r*(1.0/6))+r*r*((1.0/24+r*(1.0/120))+r*r*(1.0/720)))
	n := int(k)
	root := &roots[n&31]
	y := root.high + (root.low + root.high*p)
	e := n >> 5
	if e < -1020 || e > 1022 {
		return math.Ldexp(y, e)
	}
	return y * math.Float64frombits(uint64(e+1023)<<52)
}
