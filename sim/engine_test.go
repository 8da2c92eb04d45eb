package sim

import (
	"context"
	"strings"
	"testing"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// A sample that rests on one trial does not stop a run, however small its error
// looks, and is not passed off as an answer.
func TestDistrust(t *testing.T) {
	sys := simtest.OneGroup(8, 1, simtest.HalfMillionHours, law.Exponential(48), 43800)
	s := model.NewSums(sys)
	for i := range 200 {
		tr := s.Begin()
		w := 1e-6
		if i == 17 {
			w = 1e-3
		}
		tr.FirstLoss(100, w)
		s.End()
	}
	why := strings.Join(engine.Warnings(s), "\n")
	if !strings.Contains(why, "independent samples") || !strings.Contains(why, "one simulated life makes 83 %") {
		t.Errorf("distrust says %q", why)
	}

	fine := lossSums(t, sys, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if why := engine.Warnings(fine); len(why) > 0 {
		t.Errorf("a good sample is distrusted: %q", why)
	}
}

func lossSums(t *testing.T, sys *model.System, opt engine.Options) *model.Sums {
	t.Helper()
	s, _, err := engine.Simulate(context.Background(), sys, opt)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Plain mode that sees no loss says what can still be, and that it saw none.
func TestNothingSeenIsNotNothing(t *testing.T) {
	sys := simtest.OneGroup(8, 3, simtest.HalfMillionHours, law.Exponential(48), 43800)
	s, by, err := engine.Simulate(context.Background(), sys, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 2560, Plain: true})
	if err != nil || by != engine.ByBudget {
		t.Fatalf("stopped by %q, %v", by, err)
	}
	r := Summarise(sys, s, true)
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
	r := Summarise(sys, s, false)
	if r.LossChance != estimate.Exact(0) || r.DrivesReplaced != estimate.Exact(0) || len(r.Warnings) > 0 {
		t.Errorf("%+v", r)
	}
}
