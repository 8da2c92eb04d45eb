package model

import (
	"math"
	"math/rand/v2"
	"testing"

	"arrayodds/sim/estimate"

	"gonum.org/v1/gonum/stat"
)

// partsOf fills sums with made-up lives of that mean loss chance: two thirds of it waiting
// and one third rebuilding, apart from chance, a ten-thousandth by common cause in every
// life and much alike, and the rest never seen. It returns the parts by batch.
func partsOf(rnd *rand.Rand, batches int, mean float64) (s *Sums, parts [][Causes]float64) {
	s = NewSums(system())
	for range batches {
		var sum [Causes]float64
		for range batchLives {
			tr := s.Begin()
			size := mean * rnd.ExpFloat64()
			for by, x := range map[Cause]float64{Waiting: size * 2 * rnd.Float64(), Rebuilding: size * rnd.Float64(), CommonCause: mean * 1e-4 * (1 + 0.1*rnd.Float64())} {
				tr.FirstLoss(10, x, by)
				sum[by] += x
			}
			s.End()
		}
		parts = append(parts, sum)
	}
	return s, parts
}

// The value and the standard error are those of the jackknife over batches (M. H.
// Quenouille, "Notes on bias in estimation", Biometrika 43, 1956; from memory), which
// leaves out one batch after the other: to what is of higher order. That holds for
// chances of which no square is a number.
func TestShareAgainstTheJackknife(t *testing.T) {
	t.Parallel()
	for _, mean := range []float64{3e-5, 3e-100, 3e-120, 3e-160} {
		const batches = 400
		s, parts := partsOf(rand.New(rand.NewPCG(3, 3)), batches, mean)
		fit := NewFit(s)
		whole := 0.0
		for c := range Causes {
			e := fit.Share(c)
			whole += e.Value
			share := func(without int) float64 {
				x, y := 0.0, 0.0
				for i, p := range parts {
					if i != without {
						x += p[c]
						for _, z := range p {
							y += z
						}
					}
				}
				return x / y
			}
			if want := share(-1); math.Abs(e.Value-want) > 1e-12*want {
				t.Errorf("mean %g, %v: %g, by hand %g", mean, c, e.Value, want)
			}
			if e.Value == 0 {
				continue
			}
			var left []float64
			for i := range batches {
				left = append(left, share(i))
			}
			_, variance := stat.PopMeanVariance(left, nil)
			want := math.Sqrt(variance*(batches-1)) / e.Value
			want = math.Hypot(want, (1-e.Value)/s.EffectiveSamples())
			if math.Abs(e.RelativeError-want) > 0.02*want {
				t.Errorf("mean %g, %v: relative error %g, jackknife %g", mean, c, e.RelativeError, want)
			}
			if !(0 < e.Low && e.Low < e.Value && e.Value < e.High && e.High < 1) {
				t.Errorf("mean %g, %v: %+v", mean, c, e)
			}
			// Near the middle the interval is that of a normal law.
			if half := (e.High - e.Low) / 2; c != CommonCause && math.Abs(half-estimate.Z95*e.RelativeError*e.Value) > 0.02*half {
				t.Errorf("mean %g, %v: half-width %g, %g standard errors", mean, c, half, half/(e.RelativeError*e.Value))
			}
		}
		if math.Abs(whole-1) > 1e-12 {
			t.Errorf("mean %g: shares add up to %g", mean, whole)
		}
	}
}

// What was not seen may be, at the most, what the rule of three leaves open (B. D.
// Jovanovic, P. S. Levy, "A look at the rule of three", The American Statistician 51(2),
// 1997; from memory) with 3.69 for both sides; what rests on one life of many, no less.
func TestShareThatIsHardlySeen(t *testing.T) {
	t.Parallel()
	s, _ := partsOf(rand.New(rand.NewPCG(4, 4)), 400, 1e-6)
	open := -math.Log(0.025) / s.EffectiveSamples()
	never := NewFit(s).Share(Unreadable)
	if never.Value != 0 || never.Low != 0 || math.Abs(never.High-open) > 0.01*open || never.RelativeError != 1 {
		t.Errorf("never seen: %+v, the rule of three %g", never, open)
	}
	s.Begin().FirstLoss(10, 1e-12, SparesOut)
	s.End()
	fill(s)
	once := NewFit(s).Share(SparesOut)
	if !(once.Value > 0) || once.Value > 1e-8 || once.High < 0.99*open || once.High > 1.01*open || !(once.Low < once.Value) {
		t.Errorf("seen once: %+v, the rule of three %g", once, open)
	}
}

// A cause that is all there is has no upper end to speak of, and a low one; of plain lives
// shares are proportions of losses; without a loss there is no share.
func TestShareAtTheEnds(t *testing.T) {
	t.Parallel()
	s := NewSums(system())
	if e := NewFit(s).Share(Waiting); e.Known() {
		t.Errorf("of nothing: %+v", e)
	}
	for i := range 800 {
		tr := s.Begin()
		if i%4 == 0 {
			tr.FirstLoss(10, 1, Waiting)
		}
		s.End()
	}
	if e := NewFit(s).Share(Waiting); e.Value != 1 || e.High != 1 || math.Abs(e.Low-math.Pow(0.025, 1.0/200)) > 1e-6 {
		t.Errorf("of 200 losses, all: %+v", e)
	}
	s.Plain = true
	for range 8 {
		s.Begin().FirstLoss(10, 1, Rebuilding)
		s.End()
	}
	if e, want := NewFit(s).Share(Rebuilding), estimate.Proportion(8, 208); e != want {
		t.Errorf("8 of 208 losses: %+v, Clopper and Pearson %+v", e, want)
	}
}

// Sums of parts are those of the whole.
func TestSharesOfSumsThatWereAdded(t *testing.T) {
	t.Parallel()
	one, two, all := NewSums(system()), NewSums(system()), NewSums(system())
	rnd := rand.New(rand.NewPCG(8, 8))
	for i := range 160 {
		x, y := rnd.Float64(), rnd.Float64()
		of := one
		if i >= 80 {
			of = two
		}
		for _, s := range []*Sums{of, all} {
			tr := s.Begin()
			tr.FirstLoss(10, x, Waiting)
			tr.FirstLoss(10, y, Unreadable)
			s.End()
		}
	}
	var sum Sums
	sum.AddFigures(one)
	sum.AddFigures(two)
	for c := range Causes {
		got, want := NewFit(&sum).Share(c), NewFit(all).Share(c)
		if math.Abs(got.Value-want.Value) > 1e-12 || math.Abs(got.High-want.High) > 1e-9 {
			t.Errorf("%v: added %+v, at once %+v", c, got, want)
		}
	}
	one.Reset()
	if one.ByCause != (ByCause{}) || one.causes != (causeProducts{}) {
		t.Errorf("after a reset there is %v, %v", one.ByCause, one.causes)
	}
}
