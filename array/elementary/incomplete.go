package elementary

import "math"

// GammaInc returns the incomplete gamma function of a, above 0, and x, 0 or more, as a
// share of the whole: p is the chance that a number of Gamma(a) is below x, q that it is
// above. Both are good to some thirteen digits for a up to 30.
//
// By the series of p below a + 1 and by the continued fraction of q above, as in M.
// Abramowitz, I. A. Stegun, "Handbook of Mathematical Functions", 6.5.29 and 6.5.31, the
// fraction in the form of its even part.
func GammaInc(a, x float64) (p, q float64) {
	const enough = 1e-17
	switch {
	case x <= 0:
		return 0, 1
	case math.IsInf(x, 1):
		return 1, 0
	}
	whole, _ := math.Lgamma(a)
	front := Exp(a*math.Log(x) - x - whole)
	if x < a+1 {
		term := 1 / a
		sum := term
		for n := 1.0; term > sum*enough; n++ {
			term *= x / (a + n)
			sum += term
		}
		p = math.Min(1, front*sum)
		return p, 1 - p
	}
	// q ÷ front = 1/(b₀ − 1(1−a)/(b₁ − 2(2−a)/(b₂ − ...))) with bₙ = x + 2n + 1 − a, from
	// the front by W. J. Lentz's method.
	b := x + 1 - a
	c, d := math.Inf(1), 1/b
	f := d
	for n := 1.0; n < 10000; n++ {
		k := n * (a - n)
		b += 2
		d = 1 / (b + k*d)
		c = b + k/c
		f *= c * d
		if math.Abs(c*d-1) < 1e-16 {
			break
		}
	}
	q = front * f
	return 1 - q, q
}

// NormalCDF returns the chance that a standard normal number is below z.
func NormalCDF(z float64) float64 {
	p, q := GammaInc(0.5, z*z/2)
	if z < 0 {
		return q / 2
	}
	return 0.5 + p/2
}
