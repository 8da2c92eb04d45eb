package worth

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mat"
)

// Beside gonum's solution of all equations at once: a drive lost or back, a wait ended, a
// spare back, from each state that is not whole, in the rules of package model.
func TestAgreesWithGonum(t *testing.T) {
	for _, c := range []struct {
		name              string
		tolerance, spares int
		rates             Rates
	}{
		{"one group, serial", 2, 2, Rates{Failure: 1e-5, Degraded: []float64{1, 1, 1}, Drives: 12, Groups: 1, Wait: 1e-3, Rebuild: 0.1, Restock: 2e-3}},
		{"three groups, parallel, degraded", 3, 1, Rates{Failure: 2e-5, Degraded: []float64{1, 2, 4, 8}, Drives: 8, Groups: 3, Wait: 1e-2, Rebuild: 0.05, Parallel: true, Restock: 5e-3}},
		{"single parity, four spares", 1, 4, Rates{Failure: 1e-6, Degraded: []float64{1, 1}, Drives: 3, Groups: 1, Wait: 3e-4, Rebuild: 1, Restock: 3e-4}},
	} {
		type state struct{ down, waiting, out int }
		number := map[state]int{}
		for down := range c.tolerance + 1 {
			for waiting := range down + 1 {
				for out := range c.spares + 1 {
					if down+out > 0 {
						number[state{down, waiting, out}] = len(number)
					}
				}
			}
		}
		a, b := mat.NewDense(len(number), len(number), nil), mat.NewVecDense(len(number), nil)
		for s, i := range number {
			move := func(rate float64, to state) {
				a.Set(i, i, a.At(i, i)+rate)
				if j, ok := number[to]; ok && rate > 0 { // whole again is worth nothing
					a.Set(i, j, a.At(i, j)-rate)
				}
			}
			here, elsewhere := float64(c.rates.Drives-s.down), float64((c.rates.Groups-1)*c.rates.Drives)
			if s.down == 0 {
				here, elsewhere = here*float64(c.rates.Groups), 0
			}
			lost := state{-1, 0, 0}
			next := state{s.down + 1, s.waiting, s.out + 1}
			if s.out == c.spares {
				next = state{s.down + 1, s.waiting + 1, s.out}
			}
			fails := c.rates.Failure * c.rates.Degraded[s.down] * here
			if s.down == c.tolerance {
				move(fails, lost)
				b.SetVec(i, fails)
			} else {
				move(fails, next)
			}
			if s.out < c.spares {
				move(c.rates.Failure*elsewhere, state{s.down, s.waiting, s.out + 1})
			}
			ready := float64(s.down - s.waiting)
			if !c.rates.Parallel {
				ready = min(1, ready)
			}
			move(ready*c.rates.Rebuild, state{s.down - 1, s.waiting, s.out})
			move(float64(s.waiting)*c.rates.Wait, state{s.down, s.waiting - 1, s.out})
			move(float64(s.out)*c.rates.Restock, state{s.down, s.waiting, s.out - 1})
		}
		var x mat.VecDense
		if err := x.SolveVec(a, b); err != nil {
			t.Fatal(err)
		}
		got := New(c.tolerance, c.spares, &c.rates)
		for s, i := range number {
			if w := got.At(s.down, s.waiting, s.out); math.Abs(w-x.AtVec(i)) > 1e-3*x.AtVec(i) {
				t.Errorf("%s, %+v: %g, gonum %g", c.name, s, w, x.AtVec(i))
			}
		}
	}
}

// Spares beyond those that the chain has are out first, and do not count.
func TestManySpares(t *testing.T) {
	r := Rates{Failure: 1e-5, Degraded: []float64{1, 1}, Drives: 8, Groups: 1, Wait: 1e-3, Rebuild: 0.1, Restock: 1e-3}
	most, more := New(1, MaxSpares, &r), New(1, MaxSpares+5, &r)
	for out := range MaxSpares + 1 {
		if a, b := most.At(1, 0, out), more.At(1, 0, out+5); a != b {
			t.Errorf("%d out of %d: %g, 5 more of each: %g", out, MaxSpares, a, b)
		}
	}
	if more.At(1, 0, 2) != most.At(1, 0, 0) {
		t.Error("the first ones count")
	}
}
