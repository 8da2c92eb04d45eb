package engine

import (
	"fmt"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/exact"
	"arrayodds/sim/law"
	"arrayodds/sim/simtest"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// overGamma is E[f(g)] for g ~ Gamma(a), by Gauss-Legendre quadrature over the
// logarithm of g, where even a below 1 has no singularity.
func overGamma(a float64, f func(g float64) float64) float64 {
	gamma := distuv.Gamma{Alpha: a, Beta: 1}
	return quad.Fixed(func(y float64) float64 {
		g := math.Exp(y)
		return math.Exp(gamma.LogProb(g)+y) * f(g)
	}, -30, math.Log(a+60+20*math.Sqrt(a)), 1000, nil, 0)
}

// The rate behind a field record is uncertain: the engine draws it once a life,
// the exact chain is integrated over its Gamma law with gonum.
func TestUncertainRateAgainstTheIntegral(t *testing.T) {
	t.Parallel()
	for i, c := range []struct {
		failures  float64
		driveDays float64
		tolerance int
		restore   float64
	}{
		{0, 30000, 2, 20},
		{1, 100000, 2, 20},
		{50, 3555491, 2, 48},
		{1, 40000, 3, 40},
		{0, 20000, 1, 0.01},
	} {
		if !thorough.Part(i, 2) {
			continue
		}
		a, hours := c.failures+0.5, c.driveDays*24
		p := overGamma(a, func(g float64) float64 {
			return exact.Chain{Drives: 8, Tolerance: c.tolerance, FailurePerHour: g / hours, RestorePerHour: 1 / c.restore, DegradedFactor: 1}.LossBy(43800)
		})
		sys := simtest.OneGroup(8, c.tolerance, law.Constant{PerHour: 1 / hours}, law.Exponential(c.restore), 43800)
		sys.Uncertain = a
		e := lossOf(t, sys, Options{Seed: 3, Accuracy: 0.02, MaxTrials: 4e6})
		d := simtest.StandardErrors(e, p)
		t.Logf("%+v: %.4g ± %.1g, integral %.4g: %.1f standard errors", c, e.Value, e.Value*e.RelativeError, p, d)
		if !(math.Abs(d) < 4) || p > 1e-5 || p < 1e-10 {
			t.Errorf("%+v: %.4g ± %.1g, integral %.4g: %.1f standard errors", c, e.Value, e.Value*e.RelativeError, p, d)
		}
	}
}

// Drives of one batch share a frailty of variance 2. Over a stretch so short
// that one replacement in 500 lives is all there is (they have frailties of
// their own, which the chain does not know), the chain integrated over the
// frailty is exact to 0.2 %.
func TestFrailtyAgainstTheIntegral(t *testing.T) {
	t.Parallel()
	const variance, perHour, horizon = 2, 2.5e-7, 1000.0
	for _, tolerance := range []int{0, 1, 2, 3} {
		if !thorough.Part(tolerance, 2) {
			continue
		}
		t.Run(fmt.Sprint("tolerance ", tolerance), func(t *testing.T) {
			restore := []float64{1, 5, 300, 3000}[tolerance]
			p := overGamma(1.0/variance, func(g float64) float64 {
				return exact.Chain{Drives: 8, Tolerance: tolerance, FailurePerHour: perHour * g * variance, RestorePerHour: 1 / restore, DegradedFactor: 1}.LossBy(horizon)
			})
			sys := simtest.OneGroup(8, tolerance, law.Constant{PerHour: perHour}, law.Exponential(restore), horizon)
			sys.Frailty = variance
			e := lossOf(t, sys, Options{Seed: 4, Accuracy: 0.015, MaxTrials: 4e6})
			d := simtest.StandardErrors(e, p)
			t.Logf("%.4g ± %.1g, integral %.4g: %.1f standard errors", e.Value, e.Value*e.RelativeError, p, d)
			if off := math.Abs(e.Value - p); off > 4*e.Value*e.RelativeError+0.002*p {
				t.Errorf("%.4g ± %.1g, integral %.4g: %.1f standard errors", e.Value, e.Value*e.RelativeError, p, d)
			}
		})
	}
}
