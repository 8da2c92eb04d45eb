package elementary

import "math"

// Pow returns x^y, off by less than 0.6 of the last place where it is not below 1e-307.
// The special cases are those of [math.Pow].
func Pow(x, y float64) float64 {
	switch {
	case !(x > 0) || x == 1 || y == 0 || math.IsInf(x, 1) || math.IsInf(y, 0) || y != y:
		return math.Pow(x, y) // of which no case needs Exp
	case y == 1:
		return x
	case y == 0.5:
		return math.Sqrt(x)
	}
	log := logOf(x)
	switch p := y * log.high; {
	case p > 800:
		return math.Inf(1)
	case p < -800:
		return 0
	case p == 0:
		return 1
	}
	p := product(y, log.high)
	p = sum(p.high, p.low+y*log.low)
	return expOfSum(p.high, p.low)
}

// double is the sum of two numbers, the second one below the last place of the first.
type double struct{ high, low float64 }

// sum returns a + b without an error: D. E. Knuth, "The Art of Computer Programming",
// volume 2, section 4.2.2, theorem B.
func sum(a, b float64) double {
	s := a + b
	t := s - a
	return double{s, (a - (s - t)) + (b - t)}
}

// product returns a·b without an error, for numbers below 1e290 whose product is above
// 1e-290: T. J. Dekker, "A floating-point technique for extending the available
// precision", Numerische Mathematik 18, 1971.
func product(a, b float64) double {
	const halves = 1<<27 + 1
	t := halves * a
	ah := t - (t - a)
	al := a - ah
	t = halves * b
	bh := t - (t - b)
	bl := b - bh
	p := a * b
	return double{p, ((ah*bh - p) + ah*bl + al*bh) + al*bl}
}

// times returns the product of two doubles, good to about 2^-100.
func (a double) times(b double) double {
	p := product(a.high, b.high)
	return sum(p.high, p.low+(a.high*b.low+a.low*b.high))
}

// ln 2: its first 42 bits, so that products with exponents are exact, and the rest.
const (
	ln2High = 0x1.62e42fefa38p-1
	ln2Low  = math.Ln2 - ln2High
)

// 2/3 in two numbers.
const (
	twoThirdsHigh = 0x1.5555555555555p-1
	twoThirdsLow  = 2.0/3 - twoThirdsHigh
)

// logOf returns the natural logarithm of x, above 0 and finite, good to about 2^-64 of
// it.
func logOf(x float64) double {
	m, e := math.Frexp(x)
	if m < math.Sqrt2/2 {
		m *= 2
		e--
	}
	// With s = (m − 1)/(m + 1), log m = 2s + 2s³/3 + 2s⁵/5 + ...; s² is below 0.0295.
	f, d := m-1, sum(m, 1)
	s := double{high: f / d.high}
	back := product(s.high, d.high)
	s.low = ((f - back.high) - back.low - s.high*d.low) / d.high
	z := s.times(s)
	q, z2 := z.high, z.high*z.high
	z4 := z2 * z2
	q = ((2.0/5 + q*(2.0/7)) + z2*(2.0/9+q*(2.0/11))) + z4*((2.0/13+q*(2.0/15))+z2*(2.0/17+q*(2.0/19))+z4*(2.0/21+q*(2.0/23)))
	w := sum(twoThirdsHigh, z.high*q)
	w.low += twoThirdsLow + z.low*(2.0/5)
	third := s.times(z.times(w))
	log := sum(2*s.high, third.high)
	log.low += 2*s.low + third.low
	whole := sum(float64(e)*ln2High, log.high)
	return sum(whole.high, whole.low+(log.low+float64(e)*ln2Low))
}
