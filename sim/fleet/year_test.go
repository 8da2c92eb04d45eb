package fleet

import (
	"context"
	"fmt"
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/array/unit"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/stat/distuv"
)

// living returns arrays of drives of that life, an age each, that are restored within an
// hour.
func living(arrays, drives int, life array.Life, age func(i int) float64) (all []Array) {
	for n := range arrays {
		a := chained(fmt.Sprintf("array %d", n), array.TripleParity, drives, 0, 0.02, 1)
		a.Choice.Drive.Life, a.Choice.Drive.Label = life, "8 TB"
		for i := range a.State.Drives {
			a.State.Drives[i].Age = age(n*drives + i)
		}
		all = append(all, a)
	}
	return all
}

// quantile returns the least count that a law given by its chances, from 0 on, has up to
// that share.
func quantile(chance func(k int) float64, share float64) float64 {
	for k, sum := 0, 0.0; ; k++ {
		if sum += chance(k); sum >= share {
			return float64(k)
		}
	}
}

// shortYears is how many years tests simulate with -short.
const shortYears = 4000

// yearOfFleet simulates the year alone.
func yearOfFleet(t *testing.T, arrays []Array) Year {
	t.Helper()
	y := year{q: Request{Arrays: arrays, Options: usual(), replicates: years(shortYears)}, standings: make([]Standing, len(arrays)), workers: 2}
	if err := y.run(context.Background()); err != nil {
		t.Fatal(err)
	}
	return y.all()
}

// check holds a year against a mean, within 4.5 standard errors, and a 95 % point, within
// its interval and one drive.
func check(t *testing.T, y Year, mean, most float64) {
	t.Helper()
	if n := simtest.StandardErrors(y.Failures, mean); math.Abs(n) > 4.5 {
		t.Errorf("%g failures, %.1f standard errors from %g", y.Failures.Value, n, mean)
	}
	if most < y.Most.Low-1 || most > y.Most.High+1 {
		t.Errorf("at most %g (%g to %g), want %g", y.Most.Value, y.Most.Low, y.Most.High, most)
	}
}

// Drives of constant rate fail as a Poisson process, replaced as soon as they fail: the
// sum's mean and 95 % point against gonum's Poisson law.
func TestYearAgainstPoisson(t *testing.T) {
	t.Parallel()
	const afr = 0.05
	y := yearOfFleet(t, living(50, 8, array.ConstantRate{AFR: afr}, func(int) float64 { return 10_000 }))
	law := distuv.Poisson{Lambda: 400 * afr}
	check(t, y, law.Lambda, quantile(func(k int) float64 { return law.Prob(float64(k)) }, 0.95))
}

// Drives of different ages whose successors do not fail within the year (no hazard for the
// first two years) are a Poisson-binomial: its chances by convolution, one drive after the
// other.
func TestYearAgainstPoissonBinomial(t *testing.T) {
	t.Parallel()
	life := array.WeibullLife{Shape: 3, Scale: 4 * unit.HoursPerYear, Min: 2 * unit.HoursPerYear}
	age := func(i int) float64 { return float64(i%6) * 9000 }
	arrays := living(10, 12, life, age)
	cumulative := func(age float64) float64 {
		return math.Pow(math.Max(0, age-life.Min)/life.Scale, life.Shape)
	}
	chances, mean := []float64{1}, 0.0
	for i := range 120 {
		p := -math.Expm1(cumulative(age(i)) - cumulative(age(i)+unit.HoursPerYear))
		mean += p
		next := make([]float64, len(chances)+1)
		for k, c := range chances {
			next[k] += c * (1 - p)
			next[k+1] += c * p
		}
		chances = next
	}
	check(t, yearOfFleet(t, arrays), mean, quantile(func(k int) float64 { return chances[k] }, 0.95))
}

// Drives of one record of 3 failures share the rate behind it: Gamma(3.5) over the record's
// drive-years, so that the sum is a negative binomial, with the chances of
// N. L. Johnson, S. Kotz, A. W. Kemp, Univariate Discrete Distributions, 1992 (from memory):
// Γ(a + k)/(Γ(a)·k!)·q^k·(1 − q)^a. Were each drive to draw a rate of its own, the 95 %
// point would be that of a Poisson law, far below.
func TestYearOfOneRecord(t *testing.T) {
	t.Parallel()
	record := array.FieldRecord{Failures: 3, DriveDays: 70 * 365}
	y := yearOfFleet(t, living(50, 8, record, func(int) float64 { return 5000 }))
	const a = 3.5
	mean := a * 400 / 70
	q := mean / (mean + a)
	logGamma := func(x float64) float64 { v, _ := math.Lgamma(x); return v }
	most := quantile(func(k int) float64 {
		n := float64(k)
		return math.Exp(logGamma(a+n) - logGamma(a) - logGamma(n+1) + n*math.Log(q) + a*math.Log1p(-q))
	}, 0.95)
	check(t, y, mean, most)
	poisson := distuv.Poisson{Lambda: mean}
	if alone := quantile(func(k int) float64 { return poisson.Prob(float64(k)) }, 0.95); alone+5 > most {
		t.Errorf("the law of one record does not differ: %g and %g", alone, most)
	}
}

// Two logs leave a doubt each of rates that were stated alike: the failures of a year are the
// sum of two negative binomials that are independent, its mean μ₁ + μ₂ and its variance
// μ₁ + μ₂ + μ₁²/a + μ₂²/a (the law of total variance). Were one draw to move both, it would be
// greater by 2·μ₁·μ₂/a.
func TestYearOfTwoLogs(t *testing.T) {
	t.Parallel()
	const afr, a, b = 0.04, 4.0, 4.5
	updated := func(rate float64) array.Life {
		return array.UpdatedLife{Of: array.ConstantRate{AFR: afr}, Multiplier: array.Gamma{Shape: a, Rate: rate}}
	}
	one, other := living(25, 8, updated(a), func(int) float64 { return 5000 }), living(25, 8, updated(b), func(int) float64 { return 5000 })
	for i := range other {
		other[i].Name, other[i].SiteAt = "other "+other[i].Name, "other.toml"
	}
	y := yearOfFleet(t, append(one, other...))
	const first, second = 200 * afr, 200 * afr * a / b
	variance := first + second + (first*first+second*second)/a
	n := mostReplicates
	if !thorough.Asked() {
		n = shortYears
	}
	got := math.Pow(y.Failures.RelativeError*y.Failures.Value, 2) * float64(n)
	if n := simtest.StandardErrors(y.Failures, first+second); math.Abs(n) > 4.5 || math.Abs(got-variance) > 0.15*variance {
		t.Errorf("%g failures with a variance of %g, want %g and %g", y.Failures.Value, got, first+second, variance)
	}
}

// What is uncertain of a law is drawn all of it: of a fit that has a multiplier beside it
// the hazard is the product of the two. At shape 1 its mean is that of a Gamma law times that
// of a lognormal one, a·exp(σ²/2), and its second moment a(a + 1)·exp(2σ²).
func TestLawIsDrawnWhole(t *testing.T) {
	t.Parallel()
	const a, sigma, hours, scale, draws = 12.0, 0.2, 1000.0, 1e6, 40_000
	centre := law.Weibull{Shape: 1, Scale: scale}
	fit := &law.Fitted{Centre: centre, Multiplier: 1, ScaleError: sigma}
	for _, c := range []struct {
		name         string
		sys          model.System
		mean, square float64
	}{
		{"fit", model.System{Life: centre, Fitted: fit}, math.Exp(sigma * sigma / 2), math.Exp(2 * sigma * sigma)},
		{"multiplier", model.System{Life: centre, Uncertain: a}, a, a * (a + 1)},
		{"both", model.System{Life: centre, Fitted: fit, Uncertain: a}, a * math.Exp(sigma*sigma/2), a * (a + 1) * math.Exp(2*sigma*sigma)},
	} {
		s, sum := stream.New(1, 0), 0.0
		for range draws {
			life, rate := drawnLife(&c.sys, s)
			sum += life.Cumulative(hours) * rate / (hours / scale)
		}
		se := math.Sqrt((c.square - c.mean*c.mean) / draws)
		if n := (sum/draws - c.mean) / se; math.Abs(n) > 4.5 {
			t.Errorf("%s: a mean of %g, %.1f standard errors from %g", c.name, sum/draws, n, c.mean)
		}
	}
}

// The models add up to all drives; those beyond the bound are summed up.
func TestModels(t *testing.T) {
	t.Parallel()
	var arrays []Array
	for i := range mostModels + 30 {
		a := chained(fmt.Sprintf("array %d", i), array.RAID6, 8, 0, 0.05, 24)
		a.Choice.Drive.Label = fmt.Sprintf("model %03d", i)
		arrays = append(arrays, a)
	}
	r := askTo(t, coarse(), 2, arrays...)
	if n := len(r.Models); n != mostModels+1 || r.Models[n-1].Others != 30 || r.Models[n-1].ModelName() != "30 other models" {
		t.Errorf("%d models, the last %+v", n, r.Models[n-1])
	}
	drives, failures := 0, 0.0
	for i, m := range r.Models {
		drives += m.Drives
		failures += m.Failures.Value
		if i > 0 && m.Others == 0 && m.Failures.Value > r.Models[i-1].Failures.Value {
			t.Errorf("model %d has more failures than the one before", i)
		}
	}
	if drives != r.Year.Drives || math.Abs(failures-r.Year.Failures.Value) > 1e-6*failures {
		t.Errorf("%d drives and %g failures of the models, %d and %g of all", drives, failures, r.Year.Drives, r.Year.Failures.Value)
	}
}
