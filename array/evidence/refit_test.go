package evidence

import (
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
)

// Against the posterior law on a fine grid of shape and scale: the centre is its mode, to
// what the grid tells, the errors and the correlation are its own to some per cent. Its mean
// lies off the mode by up to an eighth of a standard error, as it is a little skew.
func TestRefitAgainstAGrid(t *testing.T) {
	t.Parallel()
	fit := array.FittedWeibull{Shape: 1.4, Scale: 300_000, ShapeError: 0.08, ScaleError: 0.25, Correlation: -0.6}
	for i, c := range []struct {
		drives, failures float64
		from, to         float64
	}{{50, 3, 2 * 8760, 4 * 8760}, {400, 30, 8760, 4 * 8760}, {400, 4, 0, 3 * 8760}, {2000, 240, 8760, 3 * 8760}} {
		if !thorough.Part(i, 2) {
			continue
		}
		expected := func(l array.Life) float64 { return c.drives * l.Expected(c.from, c.to) }
		got := Refitted(fit, nil, c.failures, expected).Life
		// Sums over the grid of the normal law times the Poisson chance of so many.
		var n, x, y, xx, yy, xy, top float64
		var mode vector
		const step, reach = 0.02, 7.0
		for u := -reach; u <= reach; u += step {
			for v := -reach; v <= reach; v += step {
				shape := fit.ShapeError * u
				scale := fit.ScaleError * (fit.Correlation*u + math.Sqrt(1-fit.Correlation*fit.Correlation)*v)
				h := expected(array.WeibullLife{Shape: fit.Shape * math.Exp(shape), Scale: fit.Scale * math.Exp(scale)})
				w := math.Exp(-(u*u+v*v)/2 + c.failures*math.Log(h) - h - (c.failures*math.Log(c.failures) - c.failures))
				if w > top {
					top, mode = w, vector{u, v}
				}
				n, x, y, xx, yy, xy = n+w, x+w*shape, y+w*scale, xx+w*shape*shape, yy+w*scale*scale, xy+w*shape*scale
			}
		}
		x, y = x/n, y/n
		a, b := math.Sqrt(xx/n-x*x), math.Sqrt(yy/n-y*y)
		r := (xy/n - x*y) / (a * b)
		dx, dy := math.Log(got.Shape/fit.Shape), math.Log(got.Scale/fit.Scale)
		u := dx / fit.ShapeError
		v := (dy/fit.ScaleError - fit.Correlation*u) / math.Sqrt(1-fit.Correlation*fit.Correlation)
		// Along the ridge the law is flat: the grid's highest point is within two steps.
		if math.Abs(u-mode[0]) > 2*step || math.Abs(v-mode[1]) > 2*step || math.Abs(dx-x) > 0.15*a || math.Abs(dy-y) > 0.15*b {
			t.Errorf("%v: centre %v, %v standard errors off; on the grid the mode %v, the mean %v, %v", c, u, v, mode, x, y)
		}
		if math.Abs(got.ShapeError/a-1) > 0.05 || math.Abs(got.ScaleError/b-1) > 0.05 || math.Abs(got.Correlation-r) > 0.05 {
			t.Errorf("%v: errors %v, %v, correlation %v; on the grid %v, %v, %v", c, got.ShapeError, got.ScaleError, got.Correlation, a, b, r)
		}
	}
}

// A log that expects next to nothing, and tells of no failure, changes nothing; so it is
// with a fit that is as good as known, whatever the log says.
func TestRefitOfNothing(t *testing.T) {
	t.Parallel()
	near := func(a, b array.FittedWeibull) bool {
		for _, x := range [][2]float64{{a.Shape, b.Shape}, {a.Scale, b.Scale}, {a.ShapeError, b.ShapeError}, {a.ScaleError, b.ScaleError}, {a.Correlation, b.Correlation}} {
			if !(math.Abs(x[0]-x[1]) <= 1e-5*math.Abs(x[1])) {
				return false
			}
		}
		return true
	}
	for _, fit := range []array.FittedWeibull{
		{Shape: 1.4, Scale: 300_000, ShapeError: 0.3, ScaleError: 0.9, Correlation: -0.9},
		{Shape: 0.7, Scale: 2e6, ScaleError: 0.5}, {Shape: 3, Scale: 2e5, ShapeError: 0.2},
	} {
		for _, drives := range []float64{1e-8, 0} {
			r := Refitted(fit, nil, 0, func(l array.Life) float64 { return drives * l.Expected(0, 8760) })
			if !near(r.Life, fit) || r.Before != r.After && math.Abs(r.After.Mean()/r.Before.Mean()-1) > 1e-5 {
				t.Errorf("%v drives: %+v, want %+v", drives, r, fit)
			}
		}
	}
	known := array.FittedWeibull{Shape: 1.4, Scale: 300_000, ScaleError: 1e-7}
	r := Refitted(known, nil, 9, func(l array.Life) float64 { return 50 * l.Expected(0, 8760) })
	if !near(r.Life, known) || math.Abs(r.After.Mean()-1) > 1e-6 || r.After.Shape < 1e8 {
		t.Errorf("%+v", r)
	}
}

// A range of the rate beside the errors is doubt about the scale: the failures expected
// have the variance of both.
func TestRefitWithARange(t *testing.T) {
	t.Parallel()
	fit := array.FittedWeibull{Shape: 1.4, Scale: 300_000, ShapeError: 0.08, ScaleError: 0.1, Correlation: 0.3}
	expected := func(l array.Life) float64 { return 1e-9 * l.Expected(0, 8760) }
	r := Refitted(fit, []Range{{0.5, 2}}, 0, expected)
	// By hand: ln 2 to either side of a peak in the middle has the variance ln²2/6.
	wide := fit.ScaleError*fit.ScaleError + math.Ln2*math.Ln2/6/(1.4*1.4)
	if math.Abs(r.Life.ScaleError*r.Life.ScaleError/wide-1) > 1e-4 || math.Abs(r.Life.Scale/3e5-1) > 1e-6 || math.Abs(r.Life.ShapeError/0.08-1) > 1e-4 {
		t.Errorf("%+v", r.Life)
	}
	if got, want := r.Life.Correlation*r.Life.ScaleError, 0.3*0.1; math.Abs(got/want-1) > 1e-4 {
		t.Errorf("a covariance by the shape's error of %v, want %v", got, want)
	}
	alone := Refitted(fit, nil, 0, expected)
	if got, want := math.Log1p(1/r.Before.Shape)-math.Log1p(1/alone.Before.Shape), math.Ln2*math.Ln2/6; math.Abs(got/want-1) > 1e-3 {
		t.Errorf("%v comes on top, want %v", got, want)
	}
}

// The interval of a wide fit by hand: where the scale alone is in doubt, with a standard
// error of its logarithm of 2, the hazard at every age goes with its power −shape, and a log
// that tells next to nothing leaves the ends at e^(±1.96·2·shape).
func TestRatesOfAWideFit(t *testing.T) {
	t.Parallel()
	fit := array.FittedWeibull{Shape: 1.4, Scale: 300_000, ScaleError: 2}
	r := Refitted(fit, nil, 0, func(l array.Life) float64 { return 1e-9 * l.Expected(0, 8760) })
	before, after := Rates(&array.Log{Before: r.Before, After: r.After, Stated: fit, Multiplier: 1})
	for _, rate := range []Rate{before, after} {
		if high := math.Exp(1.959964 * 2 * 1.4); math.Abs(rate.High/high-1) > 1e-3 || math.Abs(rate.Low*high-1) > 1e-3 || math.Abs(rate.Mean-1) > 1e-3 {
			t.Errorf("%+v, should be 1 and its %v-fold", rate, high)
		}
	}
}
