package sim

import (
	"context"
	"testing"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/law"
	"arrayodds/sim/simtest"
)

// A plain simulation that sees no loss says what can still be, and that it saw none.
func TestNothingSeenIsNotNothing(t *testing.T) {
	sys := simtest.OneGroup(8, 3, simtest.HalfMillionHours, law.Exponential(48), 43800)
	s, by, err := engine.Simulate(context.Background(), sys, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 2560, Plain: true})
	if err != nil || by != engine.ByBudget {
		t.Fatalf("stopped by %q, %v", by, err)
	}
	r := Summarise(sys, s)
	if r.LossChance.Value != 0 || r.LossChance.RelativeError != 1 || r.LossChance.High < 1e-3 || len(r.Warnings) == 0 {
		t.Errorf("%+v, warnings %q", r.LossChance, r.Warnings)
	}
}

// What cannot fail within the life is known at once, without a doubt.
func TestNothingCanFail(t *testing.T) {
	sys := simtest.OneGroup(8, 1, law.Weibull{Shape: 2, Scale: 1e5, Min: 50000}, law.Exponential(48), 43800)
	s, by, err := engine.Simulate(context.Background(), sys, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil || by != engine.ByAccuracy || s.N > 4096 {
		t.Fatalf("%g trials, stopped by %q, %v", s.N, by, err)
	}
	r := Summarise(sys, s)
	if r.LossChance != estimate.Exact(0) || r.DrivesReplaced != estimate.Exact(0) || len(r.Warnings) > 0 {
		t.Errorf("%+v", r)
	}
}
