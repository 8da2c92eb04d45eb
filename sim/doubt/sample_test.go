package doubt

import (
	"math"
	"testing"

	"arrayodds/sim/estimate"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/stat/distuv"
)

// made returns a sample of a chance that is a function of two places, each uniform, with
// noise of that relative error of its own at each setting, and what all of a replicate
// has in common.
func made(seed uint64, noise, common float64, chance func(x, y float64) float64) (*Sample, *Inputs) {
	s, in := new(Sample), new(Inputs)
	rnd := stream.New(seed, 1)
	for r, rows := range Design(seed, 2, 8) {
		shared := 1 + common*rnd.Norm()
		s.Likely[r] = chance(0.5, 0.5) * shared
		for _, u := range rows {
			s.Chance[r] = append(s.Chance[r], chance(u[0], u[1])*shared*math.Exp(noise*rnd.Norm()-noise*noise/2))
			s.Noise[r] = append(s.Noise[r], noise)
		}
		in.Places[r] = rows
	}
	var law []float64
	for j := range 1000 {
		law = append(law, (float64(j)+0.5)/1000)
	}
	in.Laws = [][]float64{law, law}
	return s, in
}

// The mean of exp(a·x + b·y) over the unit square is a product of two closed forms. That
// of a sum of two such is no surface of the fitted kind, and its interval must hold it
// too. Coverage over 400 seeds; by the binomial law (gonum) 95 % intervals hold it in at
// least 92 % of them.
func TestMean(t *testing.T) {
	t.Parallel()
	of := func(a float64) float64 { return math.Expm1(a) / a }
	for name, c := range map[string]struct {
		chance func(x, y float64) float64
		mean   float64
	}{
		"a product": {func(x, y float64) float64 { return 1e-6 * math.Exp(5*x-2*y) }, 1e-6 * of(5) * of(-2)},
		"a sum":     {func(x, y float64) float64 { return 1e-6*math.Exp(4*x) + 2e-5*math.Exp(-3*y) }, 1e-6*of(4) + 2e-5*of(-3)},
	} {
		held, width := 0, 0.0
		const seeds = 400
		for seed := range uint64(seeds) {
			s, in := made(seed, 0.03, 0.05, c.chance)
			e := s.Mean(estimate.Exact(c.chance(0.5, 0.5)), in)
			if e.Holds(c.mean) {
				held++
			}
			width += (e.High - e.Low) / 2 / c.mean / seeds
		}
		if least := (distuv.Binomial{N: seeds, P: 0.95}); least.CDF(float64(held)) < 0.005 {
			t.Errorf("%s: %d of %d intervals hold the mean", name, held, seeds)
		}
		if width > 0.1 {
			t.Errorf("%s: the intervals reach %.2g of the mean to each side", name, width)
		}
	}
}

// What the simulation adds is taken out of the spread: exp(2·x) over a uniform x has its
// quantiles at those of x.
func TestQuantiles(t *testing.T) {
	t.Parallel()
	const noise = 0.5
	low, high := 0.0, 0.0
	const seeds = 200
	for seed := range uint64(seeds) {
		s, _ := made(seed, noise, 0.2, func(x, _ float64) float64 { return 1e-4 * math.Exp(2*x) })
		q := s.Quantiles(1e-4*math.E, 0.05, 0.95)
		low, high = low+math.Log(q[0]/1e-4)/seeds, high+math.Log(q[1]/1e-4)/seeds
	}
	// Without taking it out the ends would lie near -0.6 and 2.2.
	if math.Abs(low-0.1) > 0.35 || math.Abs(high-1.9) > 0.25 {
		t.Errorf("5 and 95 %% points at %.2f and %.2f, of the law 0.1 and 1.9", low, high)
	}
}

func TestEffects(t *testing.T) {
	t.Parallel()
	s, in := made(1, 0.01, 0.02, func(x, y float64) float64 { return 1e-6 * math.Exp(3*x-y*y) })
	e := s.Effects(in)
	if math.Abs(math.Log(e[0])-3) > 0.05 || math.Abs(math.Log(e[1])+1) > 0.05 {
		t.Errorf("%v, want %g and %g", e, math.Exp(3), math.Exp(-1))
	}
	s.Chance[0][0] = 0
	if e := s.Effects(in); e != nil {
		t.Errorf("a chance of 0 has effects %v", e)
	}
}

func TestSafer(t *testing.T) {
	t.Parallel()
	a, b := new(Sample), new(Sample)
	a.Chance[0], b.Chance[0] = []float64{1, 2, 3, math.NaN()}, []float64{2, 2, 1, 1}
	a.Chance[1], b.Chance[1] = []float64{1}, []float64{2}
	if got := Safer(a, b); got != 2.5/4 {
		t.Errorf("%g", got)
	}
	if got := Safer(new(Sample), b); !math.IsNaN(got) {
		t.Errorf("without settings: %g", got)
	}
}

// Where nothing moves the chance it stays what it was, to the last digit.
func TestNothingMoves(t *testing.T) {
	t.Parallel()
	s, in := made(3, 0, 0.1, func(_, _ float64) float64 { return 1e-5 })
	as := estimate.Estimate{Value: 1.01e-5, Low: 1e-5, High: 1.02e-5, RelativeError: 0.005}
	if e := s.Mean(as, in); e != as {
		t.Errorf("%+v", e)
	}
	if q := s.Quantiles(as.Value, 0.05, 0.95); math.Abs(q[0]/as.Value-1) > 1e-12 || math.Abs(q[1]/as.Value-1) > 1e-12 {
		t.Errorf("%v", q)
	}
	if s.Share(as.Value, 1.1e-5) != 1 || s.Share(as.Value, 0.9e-5) != 0 {
		t.Error("the share that meets a goal")
	}
}
