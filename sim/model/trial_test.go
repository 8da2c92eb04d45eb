package model

import (
	"math"
	"math/rand/v2"
	"slices"
	"testing"

	"gonum.org/v1/gonum/stat"
)

// A first loss counts in the year in which it falls, and on in those after; a service
// life of 2.5 years has three.
func TestFirstLossByYear(t *testing.T) {
	t.Parallel()
	s := NewSums(system())
	for _, at := range []float64{0, 8759, 8760, 2.4 * 8760, 2.5 * 8760} { // the last one by rounding
		s.Begin().FirstLoss(at, 1, Rebuilding)
		s.End()
	}
	fill(s)
	if want := []float64{2, 3, 5}; !slices.Equal(s.Curve, want) || s.Sum[Loss] != 5 {
		t.Errorf("%v, of %g, by hand %v", s.Curve, s.Sum[Loss], want)
	}
	for horizon, years := range map[float64]int{1: 1, 8760: 1, 8761: 2, 43800: 5} {
		if got := CurveLength(horizon); got != years {
			t.Errorf("%g h are %d years, by hand %d", horizon, got, years)
		}
	}
}

// fill ends the batch with lives in which nothing is seen.
func fill(s *Sums) {
	for s.batch.lives > 0 {
		s.Begin()
		s.End()
	}
}

// What a life misses is what drives and sectors cost and each drive replaced; the
// square is of the sum over a batch of eight.
func TestMissingOfATrial(t *testing.T) {
	t.Parallel()
	sys := system()
	sys.Footage.PerSwap = 3
	s := NewSums(sys)
	tr := s.Begin()
	tr.Add(MissingDrives, 100)
	tr.Add(MissingSectors, 7)
	tr.Add(Failures, 2)
	s.End()
	fill(s)
	if s.N != 8 || s.Sum[MissingChance] != 113 || s.amounts[MissingChance].square != 113*113 || s.Sum[MissingDrives] != 100 {
		t.Errorf("%g trials, %v, %v", s.N, s.Sum, s.amounts[MissingChance])
	}
}

// A trial may go on while its sums have work left and nobody has stopped them.
func TestWorkIsBounded(t *testing.T) {
	t.Parallel()
	s := NewSums(system())
	s.MostWork = 10
	tr := s.Begin()
	if !tr.Work(4) || !tr.Work(6) || tr.Work(1) || s.Work != 11 {
		t.Errorf("%d units of 10 are done", s.Work)
	}
	s.Reset()
	s.Stop.Store(true)
	if s.Begin().Work(1) {
		t.Error("a trial goes on that was stopped")
	}
}

// Sums of which only figures are kept have no histograms.
func TestFiguresOnly(t *testing.T) {
	t.Parallel()
	s := NewSums(system())
	s.FiguresOnly = true
	tr := s.Begin()
	tr.LifeEnds(3, 1)
	tr.SetLost(1000, 1)
	tr.FirstLoss(5, 0.5, Rebuilding)
	s.End()
	fill(s)
	if s.Failures.Weights != nil || s.PerLoss.Weights != nil || s.Sum[Loss] != 0.5 {
		t.Errorf("%+v", s)
	}
}

// Without weights the quantile is that of gonum. Its interval reaches to where the share
// of a sample of n is 1.96 standard errors, of the binomial law, from the share asked
// for.
func TestQuantileOfEqualWeights(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(3, 3))
	var h Histogram
	var x []float64
	for range 501 {
		k := int(20 * rnd.ExpFloat64())
		h.add(k, 1)
		x = append(x, float64(k))
	}
	slices.Sort(x)
	for _, q := range []float64{0.05, 0.5, 0.95} {
		if got, _, _, _ := h.Quantile(q); float64(got) != stat.Quantile(q, stat.Empirical, x, nil) {
			t.Errorf("%g: %d, gonum %g", q, got, stat.Quantile(q, stat.Empirical, x, nil))
		}
	}
	var even Histogram
	for k := range 1000 {
		even.add(k+1, 1)
	}
	value, low, high, _ := even.Quantile(0.9)
	reach := func(share float64) float64 { return 1.96 * math.Sqrt(share*(1-share)/1000) }
	for k, is := range map[int]bool{low: true, low - 1: false} {
		if share := float64(k) / 1000; (share+reach(share) >= 0.9) != is {
			t.Errorf("the low end is %d", low)
		}
	}
	for k, is := range map[int]bool{high: true, high - 1: false} {
		if share := float64(k) / 1000; (share-reach(share) >= 0.9) != is {
			t.Errorf("the high end is %d", high)
		}
	}
	if value != 900 {
		t.Errorf("the 90 %% point of 1 to 1 000 is %d", value)
	}
}
