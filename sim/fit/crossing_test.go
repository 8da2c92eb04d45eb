package fit

import (
	"math"
	"math/rand/v2"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"

	"gonum.org/v1/gonum/optimize"
	"gonum.org/v1/gonum/stat/distuv"
)

// ageingFleet is drives watched from an age for some years, of a Weibull law.
func ageingFleet(seed uint64, n int, shape, scale float64) []array.Observed {
	r := rand.New(rand.NewPCG(seed, 1))
	var all []array.Observed
	for range n {
		entered := 10000 * r.Float64()
		end := entered + 20000 + 15000*r.Float64()
		// Of those that lived to that age.
		age := scale * math.Pow(math.Pow(entered/scale, shape)+r.ExpFloat64(), 1/shape)
		all = append(all, array.Observed{Entered: entered, Hours: math.Min(age, end), Failed: age < end})
	}
	return all
}

// TestCrossingsAreWhereTheHazardIs: the hazard of gonum's Weibull law at the age that
// is told is the rate. A year is 8760 hours.
func TestCrossingsAreWhereTheHazardIs(t *testing.T) {
	for _, c := range []struct {
		drives []array.Observed
		rising bool
	}{{ageingFleet(1, 400, 2.5, 60000), true}, {ageingFleet(2, 3000, 0.5, 200000), false}, {staggered, true}} {
		r := Fleet(array.Fleet{Drives: c.drives})
		if len(r.Crossings) != 2 {
			t.Fatalf("%d crossings; the law is %v", len(r.Crossings), r.Life)
		}
		law := distuv.Weibull{K: r.Weibull.Shape.Value, Lambda: r.Weibull.Scale.Value}
		for i, x := range r.Crossings {
			hazard := func(age float64) float64 { return 8760 * math.Exp(law.LogProb(age)-law.LogSurvival(age)) }
			if x.Rate != []float64{0.05, 0.10}[i] || math.Abs(hazard(x.Age.Value)/x.Rate-1) > 1e-9 {
				t.Errorf("at %v h the rate is %v, told is %v", x.Age.Value, hazard(x.Age.Value), x.Rate)
			}
			if x.Rising != c.rising || (hazard(1.01*x.Age.Value) > x.Rate) != c.rising {
				t.Errorf("rising %v: %v of %v", x.Rising, hazard(1.01*x.Age.Value), x.Rate)
			}
			if !(x.Age.Low < x.Age.Value && x.Age.Value < x.Age.High) {
				t.Errorf("%+v", x.Age)
			}
		}
	}
}

// TestCrossingIntervals: at the ends of an interval the best law whose rate there is the
// rate told of has a log likelihood of chi-squared's 95 % ÷ 2 less than the best of all,
// which is what a profile-likelihood interval is (Lawless, 2nd edition, 2003, 5.2.1, from
// memory). The likelihood is gonum's, the best shape found by gonum's Nelder and Mead.
func TestCrossingIntervals(t *testing.T) {
	const half = 1.920729410347062 // 3.841458820694124 ÷ 2
	for name, drives := range map[string][]array.Observed{"rising": ageingFleet(1, 400, 2.5, 60000), "falling": ageingFleet(2, 3000, 0.5, 200000), "staggered": staggered} {
		r := Fleet(array.Fleet{Drives: drives})
		likelihood := func(shape, scale float64) float64 {
			law := distuv.Weibull{K: shape, Lambda: scale}
			sum := 0.0
			for _, d := range drives {
				if d.Failed {
					sum += law.LogProb(d.Hours)
				} else {
					sum += law.LogSurvival(d.Hours)
				}
				if d.Entered > 0 {
					sum -= law.LogSurvival(d.Entered)
				}
			}
			return sum
		}
		best := likelihood(r.Weibull.Shape.Value, r.Weibull.Scale.Value)
		for _, x := range r.Crossings {
			for _, age := range []float64{x.Age.Low, x.Age.High} {
				// Of a shape, the scale with which the hazard at that age is the rate.
				scaleOf := func(shape float64) float64 {
					return math.Exp((math.Log(shape/x.Rate*8760) + (shape-1)*math.Log(age)) / shape)
				}
				problem := optimize.Problem{Func: func(p []float64) float64 {
					shape := math.Exp(p[0])
					return -likelihood(shape, scaleOf(shape))
				}}
				found, err := optimize.Minimize(problem, []float64{math.Log(r.Weibull.Shape.Value)}, nil, &optimize.NelderMead{})
				if err != nil {
					t.Fatal(err)
				}
				if fell := best + found.F; math.Abs(fell-half) > 1e-3 {
					t.Errorf("%s: at %.6g h, an end of the interval about %.6g h for %v a year, the log likelihood is %.5f less, want %.5f", name, age, x.Age.Value, x.Rate, fell, half)
				}
			}
		}
	}
}

// TestCrossingCoverage: about 95 of 100 intervals hold the age of the law that the
// drives are of. Of 400 fleets 380 are expected, with a standard deviation of 4.4 (of the
// 100 of make test 95, 2.2).
func TestCrossingCoverage(t *testing.T) {
	t.Parallel()
	const shape, scale = 2.5, 60000.0
	fleets := thorough.Count(400, 100)
	held := [2]int{}
	for i := range uint64(fleets) {
		r := Fleet(array.Fleet{Drives: ageingFleet(100+i, 150, shape, scale)})
		for j, x := range r.Crossings {
			truth := scale * math.Pow(x.Rate/8760*scale/shape, 1/(shape-1))
			if x.Age.Low <= truth && truth <= x.Age.High {
				held[j]++
			}
		}
	}
	for j, n := range held {
		if math.Abs(float64(n)-0.95*float64(fleets)) > 4*math.Sqrt(0.95*0.05*float64(fleets)) {
			t.Errorf("%d of %d intervals hold the age at %v a year", n, fleets, CrossedRates[j])
		}
	}
}

// A record that does not tell a law from a constant rate says no age.
func TestNoCrossings(t *testing.T) {
	for name, f := range map[string]array.Fleet{
		"too few": {Drives: staggered[:8]}, "constant": {Drives: ageingFleet(3, 200, 1, 200000)}, "sums": {Sums: []array.Counted{{DriveDays: 1000, Failures: 2}}},
		"no failure": {Drives: []array.Observed{{Hours: 5000}}},
	} {
		if r := Fleet(f); r.Crossings != nil {
			t.Errorf("%s: %+v of %v", name, r.Crossings, r.Life)
		}
	}
}
