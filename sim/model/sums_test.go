package model

import (
	"math"
	"math/rand/v2"
	"sort"
	"testing"

	"arrayodds/sim/law"
)

func system() *System {
	return &System{Horizon: 2.5 * curveStep, Sets: 1, GroupsPerSet: 1, Drives: 2, Degraded: []float64{1}}
}

// Added up by blocks or in one go, the same.
func TestSumsAddUp(t *testing.T) {
	rnd := rand.New(rand.NewPCG(1, 1))
	whole, parts := NewSums(system()), NewSums(system())
	for range 5 {
		block := NewSums(system())
		block.Reset()
		for range 24 {
			loss, at, failed := rnd.Float64(), rnd.Float64()*2.5*curveStep, rnd.IntN(9)
			for _, s := range []*Sums{whole, block} {
				tr := s.Begin()
				tr.FirstLoss(at, loss, Rebuilding)
				tr.Add(Failures, float64(failed))
				tr.LifeEnds(failed, 1)
				tr.SetLost(loss*1e4, loss)
				s.End()
			}
		}
		parts.Add(block)
	}
	if parts.N != 120 || parts.Largest != whole.Largest || len(parts.Curve) != 3 {
		t.Errorf("%g trials, largest %g, %d years", parts.N, parts.Largest, len(parts.Curve))
	}
	for q := range whole.Sum {
		if math.Abs(parts.Sum[q]-whole.Sum[q]) > 1e-12*whole.Sum[q] || math.Abs(parts.amounts[q].square-whole.amounts[q].square) > 1e-12*whole.amounts[q].square {
			t.Errorf("quantity %d: %g and %g", q, parts.Sum[q], whole.Sum[q])
		}
	}
	for y := range whole.Curve {
		if math.Abs(parts.Curve[y]-whole.Curve[y]) > 1e-12*whole.Curve[y] {
			t.Errorf("year %d: %g and %g", y+1, parts.Curve[y], whole.Curve[y])
		}
	}
	if last := whole.Curve[2]; math.Abs(last-whole.Sum[Loss]) > 1e-12*last {
		t.Errorf("the curve ends at %g, the loss chance is %g", last, whole.Sum[Loss])
	}
	a, _, _, _ := parts.Failures.Quantile(0.95)
	b, _, _, _ := whole.Failures.Quantile(0.95)
	if a != b {
		t.Errorf("95 %% of lives: %d and %d", a, b)
	}
}

// The interval of a weighted quantile covers the true one in about 95 % of
// samples; Poisson(3) has its 95 % point at 6 (0.9665 below 7, 0.9161 below 6).
func TestQuantileCovers(t *testing.T) {
	rnd := rand.New(rand.NewPCG(2, 2))
	covered, exact := 0, 0
	for range 400 {
		var h Histogram
		for range 300 {
			// Drawn from Poisson(3.6) and weighted back to Poisson(3).
			k := poisson(rnd, 3.6)
			h.add(k, math.Pow(3/3.6, float64(k))*math.Exp(0.6))
		}
		v, low, high, ok := h.Quantile(0.95)
		if !ok || low > v || v > high {
			t.Fatalf("%d in %d to %d, %t", v, low, high, ok)
		}
		if low <= 6 && 6 <= high {
			covered++
		}
		if v == 6 {
			exact++
		}
	}
	if covered < 370 || exact < 250 {
		t.Errorf("%d of 400 intervals cover 6, %d values are it", covered, exact)
	}
	var none Histogram
	if _, _, _, ok := none.Quantile(0.5); ok {
		t.Error("a quantile of nothing")
	}
}

func poisson(rnd *rand.Rand, mean float64) (k int) {
	for at := rnd.ExpFloat64(); at < mean; at += rnd.ExpFloat64() {
		k++
	}
	return k
}

// A bin of losses stands for its amount to 1.2 %.
func TestLossBins(t *testing.T) {
	amounts := []float64{}
	for x := 2e-3; x < 1e10; x *= 1.37 {
		amounts = append(amounts, x)
		if got := LossAmount(lossBin(x)); math.Abs(got-x) > 0.012*x {
			t.Errorf("%g is binned as %g", x, got)
		}
	}
	if !sort.SliceIsSorted(amounts, func(i, j int) bool { return lossBin(amounts[i]) < lossBin(amounts[j]) }) {
		t.Error("bins are out of order")
	}
	if lossBin(0) != 0 || LossAmount(0) != 0 || lossBin(1e300) >= 2000 {
		t.Error("the ends")
	}
}

// Present defects are an M/G/∞ queue: rate × E[min(dwell, time)], simulated
// defect by defect in package plain.
func TestDefects(t *testing.T) {
	s := &System{LatentRate: 0.01}
	if d := s.Defects(700); d != 7 {
		t.Errorf("never scrubbed: %g, want 7", d)
	}
	s.Scrub = law.Fixed(168)
	if d := s.Defects(100); d != 1 {
		t.Errorf("before the first scrub: %g, want 1", d)
	}
	if d := s.Defects(5000); math.Abs(d-1.68) > 1e-12 {
		t.Errorf("scrubbed: %g, want 1.68", d)
	}
}
