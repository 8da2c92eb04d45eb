package markov

import (
	"math"
	"math/rand/v2"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// Both ways, which share nothing, come to the same chance, whether it is common or below
// 1e-30.
func TestBothWaysAgree(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(1, 2))
	least := 1.0
	for range 40 {
		n := 3 + rnd.IntN(10)
		r := NewRates(n)
		rare := math.Pow(10, -4*rnd.Float64())
		for i := range n - 1 {
			r[i][i+1] = rare * rnd.Float64()
			if i > 0 {
				r[i][rnd.IntN(i)] += 3 * rnd.Float64()
			}
		}
		hours := 1 + 500*rnd.Float64()
		a, b := r.bySquares(hours), r.bySteps(hours)
		if !(math.Abs(a-b) <= 1e-11*a) {
			t.Errorf("%d states, %g h: %.15g by squares, %.15g by steps", n, hours, a, b)
		}
		least = min(least, a)
	}
	if least > 1e-25 {
		t.Errorf("the rarest chance is %g", least)
	}
}

// Stages one after the other at one rate are Erlang's law, here by gonum's gamma law.
func TestReachedIsErlang(t *testing.T) {
	t.Parallel()
	for _, stages := range []int{1, 3, 40, 300} {
		r := NewRates(stages + 1)
		for i := range stages {
			r[i][i+1] = 0.25
		}
		for _, hours := range []float64{4 * float64(stages), 3 * float64(stages)} {
			want := distuv.Gamma{Alpha: float64(stages), Beta: 0.25}.CDF(hours)
			if got := r.Reached(hours); !(math.Abs(got-want) < 1e-10*want) {
				t.Errorf("%d stages in %g h: %.13g, gonum %.13g", stages, hours, got, want)
			}
		}
	}
}
