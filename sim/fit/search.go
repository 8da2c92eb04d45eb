package fit

import "math"

// peak returns where f is greatest between from and to, and how great it is there. f
// must have one peak; golden sections find it to that width, whatever its form.
// f is flat at its peak, so that its value is known to far more digits.
func peak(f func(float64) float64, from, to, width float64) (at, value float64) {
	const golden = 0.6180339887498949
	a, d := from, to
	b, c := d-golden*(d-a), a+golden*(d-a)
	fb, fc := f(b), f(c)
	for d-a > width {
		if fb > fc {
			d, c, fc = c, b, fb
			b = d - golden*(d-a)
			fb = f(b)
		} else {
			a, b, fb = b, c, fc
			c = a + golden*(d-a)
			fc = f(c)
		}
	}
	at, value = b, fb
	if fc > fb {
		at, value = c, fc
	}
	for _, x := range []float64{from, to} { // it may lie at an end
		if v := f(x); v > value {
			at, value = x, v
		}
	}
	return at, value
}

// leave returns where f, above 0 at inside, falls through 0 on the way to limit. It
// is the limit, and false, where f never does.
func leave(f func(float64) float64, inside, limit float64) (float64, bool) {
	step := math.Copysign(0.05, limit-inside)
	outside := inside
	fIn, fOut := f(inside), 0.0
	for {
		outside += step
		step *= 1.5
		beyond := math.Abs(outside-limit) < 1e-12 || (outside > limit) == (limit > inside)
		if beyond {
			outside = limit
		}
		if fOut = f(outside); fOut <= 0 {
			break
		}
		if beyond {
			return limit, false
		}
		inside, fIn = outside, fOut
	}
	// False position with the Illinois rule: keeps the bracket, and is as fast
	// as the secant.
	side := 0
	for range 200 {
		x := (inside*fOut - outside*fIn) / (fOut - fIn)
		if math.Abs(outside-inside) < 1e-11 {
			return x, true
		}
		switch v := f(x); {
		case math.Abs(v) < 1e-12:
			return x, true
		case v > 0:
			inside, fIn = x, v
			if side == 1 {
				fOut /= 2
			}
			side = 1
		default:
			outside, fOut = x, v
			if side == -1 {
				fIn /= 2
			}
			side = -1
		}
	}
	return (inside + outside) / 2, true
}
