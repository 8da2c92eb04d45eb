package law

import (
	"fmt"
	"math"
	"testing"

	"arrayodds/array"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// near fails where got is not want to a relative tolerance.
func near(t *testing.T, what string, got, want, tolerance float64) {
	t.Helper()
	if got == want {
		return
	}
	if d := math.Abs(got-want) / math.Abs(want); !(d <= tolerance) {
		t.Errorf("%s = %.15g, want %.15g (off by %.2g of it, allowed %.2g)", what, got, want, d, tolerance)
	}
}

// panels integrates f from a to b in n panels of 20 points.
func panels(f func(float64) float64, a, b float64, n int) float64 {
	sum, width := 0.0, (b-a)/float64(n)
	for i := range n {
		sum += quad.Fixed(f, a+float64(i)*width, a+float64(i+1)*width, 20, quad.Legendre{}, 0)
	}
	return sum
}

var lives = []struct {
	name string
	life Life
	kink float64 // hours between ages at which the hazard may jump, 0 for none
}{
	{"constant", Constant{2e-6}, 0},
	{"constant, high", Constant{0.3}, 0},
	{"Weibull, as good as field data", Weibull{Shape: 1.12, Scale: 461386}, 0},
	{"Weibull, infant mortality", Weibull{Shape: 0.7, Scale: 2e5}, 0},
	{"Weibull, wear-out with a minimum", Weibull{Shape: 3.3, Scale: 80000, Min: 500}, 500},
	{"Weibull, steepest accepted", Weibull{Shape: 20, Scale: 60000}, 0},
	{"Weibull of shape 1", Weibull{Shape: 1, Scale: 5e5}, 0},
	{"bathtub", NewSteps([]float64{6e-6, 2e-6, 1e-6, 8e-6}, 8760), 8760},
	{"bathtub with a year without failures", NewSteps([]float64{3e-6, 0, 4e-6}, 8760), 8760},
	{"one year for ever", NewSteps([]float64{3e-6}, 8760), 0},
}

var ages = []float64{0, 0.5, 100, 499.9, 500, 4000, 8759.9, 8760, 8760.1, 17000, 26280, 40000, 80000}

// Every life: Over is the difference of Cumulative, Age its inverse, Rate its
// derivative.
func TestLives(t *testing.T) {
	for _, c := range lives {
		t.Run(c.name, func(t *testing.T) {
			l := c.life
			if h := l.Cumulative(0); h != 0 {
				t.Errorf("Cumulative(0) = %g, want 0", h)
			}
			for _, age := range ages {
				here := l.Cumulative(age)
				for _, d := range []float64{1, 47, 300, 8760, 20000, 50000} {
					there := l.Cumulative(age + d)
					if there < here {
						t.Errorf("Cumulative falls from %g to %g between %g and %g", here, there, age, age+d)
					}
					// What the difference itself has lost by rounding.
					if diff := l.Over(age, d) - (there - here); math.Abs(diff) > 1e-13*there {
						t.Errorf("Over(%g, %g) = %.15g, the difference is %.15g", age, d, l.Over(age, d), there-here)
					}
				}
				if o := l.Over(age, 0); o != 0 {
					t.Errorf("Over(%g, 0) = %g, want 0", age, o)
				}
				if r := l.Rate(age); here > 0 && r > 0 {
					near(t, fmt.Sprintf("Age(Cumulative(%g))", age), l.Age(here), age, 1e-12)
				}
				near(t, fmt.Sprintf("Cumulative(Age(%g))", here), l.Cumulative(l.Age(here)), here, 1e-12)

				// The derivative from the right, by Over to both orders: over
				// d and d/2, so that the error falls with d².
				d := 1e-5 * max(1, age-500)
				if age == 0 {
					continue // where a rate may be infinite
				}
				slope := 2*l.Over(age, d/2)/(d/2) - l.Over(age, d)/d
				if r := l.Rate(age); math.Abs(slope-r) > 1e-5*r+1e-20 {
					t.Errorf("Rate(%g) = %.10g, the slope there is %.10g", age, r, slope)
				}
			}
		})
	}
}

// A short window at a great age adds up: a thousand of them are the whole.
func TestOverShort(t *testing.T) {
	for _, c := range lives {
		t.Run(c.name, func(t *testing.T) {
			for _, age := range []float64{8000, 8759.5, 30000.25, 79999} {
				const d = 1.0 / 1024 // exact, and so are all the ages
				sum := 0.0
				for i := range 1024 {
					sum += c.life.Over(age+float64(i)*d, d)
				}
				near(t, fmt.Sprintf("sum of Over from %g", age), sum, c.life.Over(age, 1), 1e-12)
			}
		})
	}
}

// Every mean is the integral of the chance to be alive.
func TestMeanLife(t *testing.T) {
	for _, c := range lives {
		t.Run(c.name, func(t *testing.T) {
			// In the variable u = log age: smooth at both ends for every shape.
			// Steps are cut where they jump.
			alive := func(u float64) float64 { return math.Exp(u - c.life.Cumulative(math.Exp(u))) }
			from, sum := -40.0, 0.0
			if c.kink > 0 {
				from = math.Log(c.kink)
				sum = c.kink * panels(func(x float64) float64 { return math.Exp(-c.life.Cumulative(x * c.kink)) }, 0, 1, 4)
				for i := range 10 {
					from2 := math.Log(c.kink * float64(i+2))
					sum += panels(alive, from, from2, 20)
					from = from2
				}
			}
			sum += panels(alive, from, math.Log(c.life.Age(800)), 400)
			near(t, "Mean", c.life.Mean(), sum, 1e-10)
		})
	}
}

// A rate of 0 is accepted (a year without failures that is the last one): the
// drive then never fails.
func TestNeverFails(t *testing.T) {
	for _, l := range []Life{Constant{0}, NewSteps([]float64{1e-6, 0}, 8760)} {
		if h := l.Over(20000, 500); h != 0 {
			t.Errorf("%v: Over = %g, want 0", l, h)
		}
		if a := l.Age(1); !math.IsInf(a, 1) {
			t.Errorf("%v: Age(1) = %g, want +Inf", l, a)
		}
		if a := l.Age(0); a != 0 {
			t.Errorf("%v: Age(0) = %g, want 0", l, a)
		}
		if m := l.Mean(); !math.IsInf(m, 1) {
			t.Errorf("%v: Mean = %g, want +Inf", l, m)
		}
	}
}

// A window over the edge of a year has the digits of its own length, not those
// of the age.
func TestStepsOverEdge(t *testing.T) {
	s := NewSteps([]float64{2e-6, 6e-6, 1e-6}, 8760)
	const d = 1.0 / (1 << 30)
	// d on each side of the first edge, both exact.
	near(t, "Over the edge", s.Over(8760-d, 2*d), 8e-6*d, 1e-15)
	// 2^-41 is less than the age can hold: most of the window lies in the second
	// step though age + d is the edge itself.
	const tiny = 1.0 / (1 << 41)
	near(t, "Over from the edge", s.Over(8760, tiny), 6e-6*tiny, 1e-15)
	near(t, "Over nearly to the edge", s.Over(8760-1.0/(1<<39), 1.0/(1<<39)+tiny), 2e-6/(1<<39)+6e-6*tiny, 1e-15)
	// Three whole steps and the infinite last one.
	near(t, "Over all", s.Over(760, 30000), 2e-6*8000+6e-6*8760+1e-6*(30760-2*8760), 1e-15)
}

// What a site file describes becomes the law it names, the hazard multiplied.
func TestOfLife(t *testing.T) {
	const scale = 2.5
	for _, c := range []struct {
		of   array.Life
		age  float64
		want float64 // cumulative hazard before the multiplier
	}{
		// The definition of an annualised failure rate: after a year the
		// cumulative hazard is the rate.
		{array.ConstantRate{AFR: 0.015}, 8760, 0.015},
		{array.WeibullLife{Shape: 1.12, Scale: 461386}, 43800, 7.15647011186912874e-02}, // as in weibull_test.go
		{array.WeibullLife{Shape: 2, Scale: 1000, Min: 500}, 2500, 4},
		{array.RateByYear{AFR: []float64{0.03, 0.01, 0.02}}, 4 * 8760, 0.03 + 0.01 + 0.02 + 0.02},
		{array.FieldRecord{Failures: 50, DriveDays: 3555491}, 24 * 3555491, 1},
	} {
		life, _, err := OfLife(c.of, scale)
		if err != nil {
			t.Fatal(err)
		}
		near(t, fmt.Sprintf("%#v", c.of), life.Cumulative(c.age), scale*c.want, 1e-13)
	}
	if _, _, err := OfLife(nil, 1); err == nil {
		t.Error("no error for a life that is none")
	}
}

// S1 of the published figures: B. Schroeder, G. A. Gibson, "Disk failures in the
// real world", FAST 2007, abstract: an MTTF of 1 000 000 h is an annual rate of
// 0.88 %.
func TestOfLifeMTTF(t *testing.T) {
	life, _, err := OfLife(array.ConstantRate{AFR: 8760 / 1e6}, 1)
	if err != nil {
		t.Fatal(err)
	}
	near(t, "mean life", life.Mean(), 1e6, 1e-14)
	if got := math.Round(life.Cumulative(8760)*1e4) / 1e4; got != 0.0088 {
		t.Errorf("annual rate %.4f, want 0.0088", got)
	}
}

// A record's rate is Gamma(k + ½) ÷ drive-days: its mean and its 5 % and 95 %
// points, by scipy 1.10.1, stats.gamma(k + .5, scale=1/D), times 365.
func TestFieldRecord(t *testing.T) {
	for _, c := range []struct {
		failures, days  float64
		mean, low, high float64 // failures per drive-year
	}{
		{50, 3555491, 0.0051842347512622, 0.00404540640470551, 0.00643966235382062},
		{21, 1416127, 0.0055415227589051, 0.00373275899141395, 0.0076425991065132},
		{0, 1e5, 0.001825, 7.17615550003563e-06, 0.00701066234776678},
	} {
		life, a, err := OfLife(array.FieldRecord{Failures: c.failures, DriveDays: c.days}, 1)
		if err != nil {
			t.Fatal(err)
		}
		perYear := life.Cumulative(8760)
		g := distuv.Gamma{Alpha: a, Beta: 1}
		near(t, "mean", a*perYear, c.mean, 1e-12)
		near(t, "5 %", g.Quantile(0.05)*perYear, c.low, 1e-9)
		near(t, "95 %", g.Quantile(0.95)*perYear, c.high, 1e-9)
	}
	for _, certain := range []array.Life{array.ConstantRate{AFR: 0.01}, array.WeibullLife{Shape: 2, Scale: 100}, array.RateByYear{AFR: []float64{0.1}}} {
		if _, a, _ := OfLife(certain, 1); a != 0 {
			t.Errorf("%#v: uncertain = %g, want 0", certain, a)
		}
	}
}
