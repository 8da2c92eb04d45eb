package sim

import (
	"context"
	"math"
	"testing"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/exact"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"

	"gonum.org/v1/gonum/stat/distuv"
)

func within(t *testing.T, what string, got, want, part float64) {
	t.Helper()
	if math.Abs(got-want) > part*want {
		t.Errorf("%s: %.4g, want %.4g to %g %%", what, got, want, 100*part)
	}
}

// The loss chance at the ends of the rate's 95 % interval, by the exact chain
// and gonum's quantiles of the Gamma law.
func TestRecordSpanOfAFieldRecord(t *testing.T) {
	const failures, driveDays = 4, 400000
	sys := simtest.OneGroup(8, 2, law.Constant{PerHour: 1.0 / (driveDays * 24)}, law.Exponential(48), 43800)
	sys.Uncertain = failures + 0.5
	span, err := recordSpan(context.Background(), sys, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil {
		t.Fatal(err)
	}
	rate := distuv.Gamma{Alpha: failures + 0.5, Beta: driveDays * 24}
	at := func(q float64) float64 {
		return exact.Chain{Drives: 8, Tolerance: 2, FailurePerHour: rate.Quantile(q), RestorePerHour: 1.0 / 48, DegradedFactor: 1}.LossBy(43800)
	}
	within(t, "low", span.Low, at(0.025), 0.15)
	within(t, "high", span.High, at(0.975), 0.15)
	if span.High < 20*span.Low {
		t.Errorf("%+v is narrow for a record of 4 failures", span)
	}
}

// A Weibull of shape 1 whose scale alone is uncertain is a constant rate that is
// lognormal, and the loss chance of a rare loss is its third power.
func TestRecordSpanOfAFit(t *testing.T) {
	const scale, doubt = 400000.0, 0.2
	sys := simtest.OneGroup(8, 2, law.Weibull{Shape: 1, Scale: scale}, law.Exponential(48), 43800)
	sys.Fitted = &law.Fitted{Centre: law.Weibull{Shape: 1, Scale: scale}, Multiplier: 1, ScaleError: doubt}
	span, err := recordSpan(context.Background(), sys, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil {
		t.Fatal(err)
	}
	at := func(z float64) float64 {
		return exact.Chain{Drives: 8, Tolerance: 2, FailurePerHour: math.Exp(z*doubt) / scale, RestorePerHour: 1.0 / 48, DegradedFactor: 1}.LossBy(43800)
	}
	within(t, "low", span.Low, at(-estimate.Z95), 0.2)
	within(t, "high", span.High, at(estimate.Z95), 0.2)

	// The risk itself is the mean over that law, by quadrature.
	sums, _, err := engine.Simulate(context.Background(), sys, engine.Options{Seed: 2, Accuracy: 0.02, MaxTrials: 4e6})
	if err != nil {
		t.Fatal(err)
	}
	e := model.NewFit(sums).Estimate(model.Loss)
	normal := distuv.UnitNormal
	want := 0.0
	const step = 0.01
	for z := -8.0; z < 8; z += step {
		want += step * normal.Prob(z) * at(z)
	}
	if d := simtest.StandardErrors(e, want); !(math.Abs(d) < 4) {
		t.Errorf("%.4g ± %.1g, mean over the law %.4g: %.1f standard errors", e.Value, e.Value*e.RelativeError, want, d)
	}
}

func TestNoRecordNoSpan(t *testing.T) {
	sys := simtest.OneGroup(8, 2, simtest.HalfMillionHours, law.Exponential(48), 43800)
	if span, err := recordSpan(context.Background(), sys, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6}); span != nil || err != nil {
		t.Errorf("%+v, %v", span, err)
	}
}
