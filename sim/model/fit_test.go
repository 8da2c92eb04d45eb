package model

import (
	"math"
	"math/rand/v2"
	"testing"

	"arrayodds/array/thorough"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/distuv"
)

// lives fills sums with made-up lives: a loss chance of that mean that hangs on two of
// the controls and has noise of its own.
func lives(rnd *rand.Rand, batches int, mean, noise float64) *Sums {
	s := NewSums(system())
	for range batches * batchLives {
		tr := s.Begin()
		a, b := rnd.NormFloat64(), rnd.ExpFloat64()-1
		tr.Control(Arrivals, a)
		tr.Control(Outages, b)
		tr.Control(Forks, 2*b-a) // says nothing of its own
		tr.FirstLoss(10, mean*(1+0.5*a+0.8*b+noise*rnd.NormFloat64()), Rebuilding)
		s.End()
	}
	return s
}

// The mean is the constant of gonum's least squares of batches on their controls, and
// its error the one that goes with it, with the part of what may not have been seen.
func TestFitIsARegression(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(5, 5))
	const batches, mean = 100, 2e-7
	s := NewSums(system())
	x, y := mat.NewDense(batches, 3, nil), mat.NewVecDense(batches, nil)
	for i := range batches {
		x.Set(i, 0, 1)
		sum := 0.0
		for range batchLives {
			tr := s.Begin()
			a, b := rnd.NormFloat64(), rnd.ExpFloat64()-1
			loss := mean * (3 + a - 0.5*b + rnd.NormFloat64())
			tr.Control(LateArrivals, a)
			tr.Control(Forks, b)
			tr.FirstLoss(0, loss, Rebuilding)
			s.End()
			x.Set(i, 1, x.At(i, 1)+a)
			x.Set(i, 2, x.At(i, 2)+b)
			sum += tr.Amounts[Loss]
		}
		y.SetVec(i, sum)
	}
	var beta mat.VecDense
	if err := beta.SolveVec(x, y); err != nil {
		t.Fatal(err)
	}
	var fitted, left mat.VecDense
	fitted.MulVec(x, &beta)
	left.SubVec(y, &fitted)
	var products, inverse mat.Dense
	products.Mul(x.T(), x)
	if err := inverse.Inverse(&products); err != nil {
		t.Fatal(err)
	}
	want := beta.AtVec(0) / batchLives
	se := math.Sqrt(mat.Dot(&left, &left)/(batches-3)*inverse.At(0, 0)) / batchLives
	e := NewFit(s).Estimate(Loss)
	if math.Abs(e.Value-want) > 1e-9*want {
		t.Errorf("mean %g, gonum %g", e.Value, want)
	}
	if got, want := e.Value*e.RelativeError, math.Hypot(se, e.Value/(batches*batchLives)); math.Abs(got-want) > 1e-9*want {
		t.Errorf("error %g, gonum %g", got, want)
	}
	if reach := (e.High - e.Value) / (e.Value * e.RelativeError); math.Abs(reach-distuv.StudentsT{Sigma: 1, Nu: batches - 3}.Quantile(0.975)) > 1e-3 {
		t.Errorf("the interval reaches %g errors", reach)
	}
	// What the bundles of a sweep add up to is the same figure.
	all := Sample{Loss: s.Sum[Loss], Controls: s.Controls}
	if got := NewFit(s).Adjusted()(&all) / s.N; math.Abs(got-e.Value) > 1e-12*e.Value {
		t.Errorf("added up %g, fitted %g", got, e.Value)
	}
}

// Intervals cover the mean in about 95 of 100 samples, few batches or many, with
// controls that say nearly all or nothing; those that say the same are used once. (A
// true 95 % lies beyond these bounds in 1 of 3 000 such counts of 1 000.)
func TestFitCovers(t *testing.T) {
	t.Parallel()
	for i, noise := range []float64{0.3, 2} {
		for k, batches := range []int{40, 64, 300} { // the first without coefficients
			if !thorough.Part(i+k, 2) {
				continue
			}
			rnd := rand.New(rand.NewPCG(uint64(batches), 6))
			covered := 0
			for range 1000 {
				s := lives(rnd, batches, 1e-9, noise)
				f := NewFit(s)
				if n := len(f.used); batches < minBatches && n != 0 || batches >= minBatches && n != 2 {
					t.Fatalf("%d controls are used", n)
				}
				if e := f.Estimate(Loss); e.Low <= 1e-9 && 1e-9 <= e.High {
					covered++
				}
			}
			if covered < 924 || covered > 975 {
				t.Errorf("noise %g, %d batches: %d of 1000 cover", noise, batches, covered)
			}
		}
	}
}

// A weight that roulette adds makes what any life of that weight makes, so it is taken
// out at the figure itself: lives whose loss is twice their mean where twice the weight
// came to be are all alike.
func TestWeightIsTakenOutAtTheFigure(t *testing.T) {
	t.Parallel()
	s := NewSums(system())
	rnd := rand.New(rand.NewPCG(7, 7))
	for i := range 800 {
		tr := s.Begin()
		added := float64(rnd.IntN(2)*2 - 1)
		if i%2 == 1 {
			added = -tr.sums.batch.controls[Weights] // so that they come to 0 exactly
		}
		tr.Control(Weights, added)
		tr.FirstLoss(0, 3e-5*(1+added), Rebuilding)
		s.End()
	}
	if e := NewFit(s).Estimate(Loss); math.Abs(e.Value-3e-5) > 1e-15 {
		t.Errorf("%+v", e)
	}
}

// Chances whose squares are no numbers keep their interval, relative to them the same but
// for the controls, which are left out.
func TestTinyChances(t *testing.T) {
	t.Parallel()
	for _, mean := range []float64{1e-3, 1e-120, 1e-170, 1e-250} {
		e := NewFit(lives(rand.New(rand.NewPCG(8, 8)), 100, mean, 1)).Estimate(Loss)
		if !(e.Low <= mean && mean <= e.High) || !(e.RelativeError > 0.02 && e.RelativeError < 0.1) {
			t.Errorf("of %g: %+v", mean, e)
		}
		s := lives(rand.New(rand.NewPCG(8, 8)), 100, mean, 1)
		if n := s.EffectiveSamples(); !(n > 100 && n < 800) {
			t.Errorf("of %g: %g effective samples", mean, n)
		}
	}
}

// The chance of a loss by the end of a year is the constant of gonum's least squares too,
// with what is known to be chance of the years until then beside the other controls. The
// last year's is the loss chance.
func TestYearsHaveControlsOfTheirOwn(t *testing.T) {
	t.Parallel()
	rnd := rand.New(rand.NewPCG(6, 6))
	const batches, mean = 100, 2e-7
	s := NewSums(system())
	x, y := mat.NewDense(batches, 4, nil), mat.NewVecDense(batches, nil)
	for i := range batches {
		x.Set(i, 0, 1)
		sum := 0.0
		for range batchLives {
			tr := s.Begin()
			a, b, c := rnd.NormFloat64(), rnd.ExpFloat64()-1, rnd.NormFloat64()
			first, second := mean*(10+a+rnd.NormFloat64()), mean*(10+b-2*c)
			tr.Control(Outages, a)
			tr.InYear(0, YearArrivals, b/2)
			tr.InYear(1, YearArrivals, b/2)
			tr.InYear(1, YearEvents, c)
			tr.InYear(2, YearEvents, rnd.NormFloat64()) // says nothing of years before
			tr.FirstLoss(0, first, Waiting)
			tr.FirstLoss(YearEnd(0), second, Waiting)
			s.End()
			x.Set(i, 1, x.At(i, 1)+a)
			x.Set(i, 2, x.At(i, 2)+b)
			x.Set(i, 3, x.At(i, 3)+c)
			sum += first + second
		}
		y.SetVec(i, sum)
	}
	var beta mat.VecDense
	if err := beta.SolveVec(x, y); err != nil {
		t.Fatal(err)
	}
	f := NewFit(s)
	want := beta.AtVec(0) / batchLives
	if e := f.Curve(1); math.Abs(e.Value-want) > 1e-9*want || !(e.RelativeError < 0.7*f.Curve(0).RelativeError) {
		t.Errorf("%+v, gonum %g", e, want)
	}
	if last, whole := f.Curve(2), f.Estimate(Loss); last.RelativeError != whole.RelativeError || math.Abs(last.Value-whole.Value) > 1e-12*whole.Value {
		t.Errorf("by the last year %+v, in all %+v", last, whole)
	}
}
