package law

import (
	"fmt"
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// As a drive's age goes up and down in steps of all sizes, against gonum's law: the
// hazard is its density ÷ its survival, the cumulative one the logarithm of the survival.
func TestAgeing(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 1))
	for _, w := range []Weibull{{0.2, 1e6, 0}, {0.7, 200000, 0}, {1.12, 461386, 0}, {3.3, 80000, 500}, {20, 60000, 0}} {
		a, gonum := NewAgeing(w), distuv.Weibull{K: w.Shape, Lambda: w.Scale}
		rate := func(age float64) float64 {
			if age <= w.Min {
				return 0
			}
			return math.Exp(gonum.LogProb(age-w.Min) - gonum.LogSurvival(age-w.Min))
		}
		var n Near
		for age := 100.0; age < 60000; age *= 1 + math.Pow(10, -4*rnd.Float64())*(rnd.Float64()-0.45) {
			d := age * math.Pow(10, -0.7-3*rnd.Float64())
			s := a.Through(&n, age, d)
			what := fmt.Sprintf("%v at %g", w, age)
			near(t, what+": rate", a.Rate(&n, age+d), rate(age+d), 1e-10)
			near(t, what+": first", s.First, rate(age), 1e-10)
			near(t, what+": last", s.Last, rate(age+d), 1e-10)
			cumulative := func(age float64) float64 { return -gonum.LogSurvival(max(0, age-w.Min)) }
			near(t, what+": over", s.Over, cumulative(age+d)-cumulative(age), 1e-9) // the difference loses digits
		}
	}
	a := NewAgeing(Weibull{0.5, 1000, 0})
	if first := a.Through(new(Near), 0, 10).First; !math.IsInf(first, 1) {
		t.Errorf("a new drive's hazard is %g", first)
	}
}

// A crowd is the sum of its drives, those that have left taken out.
func TestCrowd(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 2))
	for _, w := range []Weibull{{0.2, 1e6, 0}, {0.7, 200000, 0}, {1.12, 461386, 0}, {3.3, 80000, 500}, {20, 60000, 0}} {
		a := NewAgeing(w)
		const hours = 200
		var c Crowd
		var ages, factors []float64
		for len(ages) < 40 {
			if age := 40000 * rnd.Float64(); a.Fits(age, hours) {
				ages, factors = append(ages, age), append(factors, 2*rnd.Float64())
				a.Join(&c, new(Near), age, factors[len(factors)-1])
			}
		}
		for range 5 {
			u := hours * (2*rnd.Float64() - 1)
			x := (hours - u) * rnd.Float64()
			var want Stretch
			for i, age := range ages {
				want.Add(factors[i], Stretch{w.Over(age+u, x), w.Rate(age + u), w.Rate(age + u + x)})
			}
			got := c.Through(u, x)
			what := fmt.Sprintf("%v from %g for %g", w, u, x)
			near(t, what+": over", got.Over, want.Over, 1e-10)
			near(t, what+": first", got.First, want.First, 1e-10)
			near(t, what+": last", got.Last, want.Last, 1e-10)
			last := len(ages) - 1
			if !a.Leave(&c, new(Near), ages[last], factors[last]) && w.Shape < 2 {
				t.Errorf("%s: digits lost by one drive of %d", what, len(ages))
			}
			ages, factors = ages[:last], factors[:last]
		}
	}
}
