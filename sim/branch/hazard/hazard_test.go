package hazard

import (
	"math"
	"testing"

	"arrayodds/sim/law"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

func same(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-9*math.Abs(want)) {
		t.Errorf("%s: %.12g, should be %.12g", what, got, want)
	}
}

// Hazards of every kind of law: of Weibull laws by gonum's density and survival, also of one
// that is put in the place of another, and of what passes by gonum's quadrature.
func TestLife(t *testing.T) {
	t.Parallel()
	const horizon = 43800
	weibull := func(shape, scale float64) func(age float64) float64 {
		w := distuv.Weibull{K: shape, Lambda: scale}
		return func(age float64) float64 { return w.Prob(age) / w.Survival(age) }
	}
	refitted := New(law.Weibull{Shape: 1.1, Scale: 3e5}, horizon)
	refitted.Refit(law.Weibull{Shape: 2.5, Scale: 9e4})
	for name, c := range map[string]struct {
		life *Life
		rate func(age float64) float64
	}{
		"constant":         {New(law.Constant{PerHour: 3e-6}, horizon), func(float64) float64 { return 3e-6 }},
		"ageing":           {New(law.Weibull{Shape: 1.8, Scale: 9e4}, horizon), weibull(1.8, 9e4)},
		"put in place":     {refitted, weibull(2.5, 9e4)},
		"steps, in a step": {New(law.NewSteps([]float64{3e-6, 8e-6}, 17520), horizon), func(float64) float64 { return 8e-6 }},
	} {
		var near law.Near
		for _, x := range []float64{1, 300, 9000} {
			const age = 20000
			s := c.life.Through(&near, age, x)
			same(t, name+", at first", s.First, c.rate(age))
			same(t, name+", at last", s.Last, c.rate(age+x))
			same(t, name+", meanwhile", s.Over, quad.Fixed(c.rate, age, age+x, 50, nil, 0))
			same(t, name+", at an age", c.life.At(&near, age+x), c.rate(age+x))
		}
		same(t, name+", all of it", c.life.Worn, c.life.Cumulative(horizon))
		if n := len(c.life.years); n != 5 || !math.IsInf(c.life.years[4], 1) {
			t.Fatalf("%s: years %v", name, c.life.years)
		}
		same(t, name+", a year", c.life.years[1]-c.life.years[0], c.life.Over(8760, 8760))
		by := c.life.By(20500)
		c.life.Keep(&near, 20500, by)
		same(t, name+", kept", c.life.By(20500), c.life.Cumulative(20500))
		same(t, name+", near what was kept", c.life.At(&near, 20600), c.rate(20600))
	}
	kept := refitted.Law()
	refitted.Refit(law.Weibull{Shape: 3, Scale: 5e4})
	if kept != law.Life(law.Weibull{Shape: 2.5, Scale: 9e4}) {
		t.Errorf("the law of the life before is %v", kept)
	}
}

// By hand: of a linear hazard a drive that came at half of t has (t/2) ÷ (the horizon − t/2)
// of its bound at t. It is of use from half of it on: from two thirds of the life.
func TestShares(t *testing.T) {
	t.Parallel()
	var s Shares
	if s.Any() || s.At(1) != 0 {
		t.Error("the zero value has shares")
	}
	s.Prepare(New(law.Weibull{Shape: 2, Scale: 1e5}, 32000))
	for at := 500.0; at < 32000; at += 1000 {
		want := at / 2 / (32000 - at/2)
		if want < 0.5 {
			want = 0
		}
		same(t, "share", s.At(at), want)
	}
	s.Prepare(New(law.Weibull{Shape: 0.5, Scale: 1e5}, 32000))
	if s.Any() {
		t.Error("drives without bounds have shares")
	}
}
