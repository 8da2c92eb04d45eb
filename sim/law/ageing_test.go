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
			over, first, last := a.Through(&n, age, d)
			what := fmt.Sprintf("%v at %g", w, age)
			near(t, what+": rate", a.Rate(&n, age+d), rate(age+d), 1e-10)
			near(t, what+": first", first, rate(age), 1e-10)
			near(t, what+": last", last, rate(age+d), 1e-10)
			cumulative := func(age float64) float64 { return -gonum.LogSurvival(max(0, age-w.Min)) }
			near(t, what+": over", over, cumulative(age+d)-cumulative(age), 1e-9) // the difference loses digits
		}
	}
	a := NewAgeing(Weibull{0.5, 1000, 0})
	if _, first, _ := a.Through(new(Near), 0, 10); !math.IsInf(first, 1) {
		t.Errorf("a new drive's hazard is %g", first)
	}
}
