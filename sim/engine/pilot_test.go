package engine

import (
	"context"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// A group of 1 000 drives that stands one failure is lost over and over in 50 years. Lines
// multiply without end there, and plain lives are so long that a pilot sees few of them:
// they are simulated all the same, and show that every life has a loss.
func TestLongLivesThatAllLoseArePlain(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "lives so long take seconds")
	sys := simtest.OneGroup(1000, 1, simtest.HalfMillionHours, law.Exponential(48), 438000)
	s, by, err := Simulate(context.Background(), sys, Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil {
		t.Fatal(err)
	}
	e := LossChance(sys, s, model.NewFit(s))
	if !s.Plain || by != ByAccuracy || e.Value != 1 || !(e.Low > 0.99 && e.High == 1) {
		t.Errorf("plain: %v, stopped by %q, %+v", s.Plain, by, e)
	}
}

// A group of 1 000 drives that fail often, in which branching sees next to none of the losses
// that every life has: plain lives show them, few of them in a block as each is long, and a
// minute's work is more than is needed.
func TestLossesThatBranchingDoesNotSeeArePlain(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "the pilot alone takes some seconds")
	sys := simtest.OneGroup(1000, 1, law.Constant{PerHour: 1.0 / 10000}, law.Exponential(48), 43800)
	s, by, err := Simulate(context.Background(), sys, Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil {
		t.Fatal(err)
	}
	e := LossChance(sys, s, model.NewFit(s))
	if p := chainOf(sys).LossBy(sys.Horizon); !s.Plain || by != ByAccuracy || !(e.Low <= p && p <= e.High) || s.Work > MaxRunWork/10 {
		t.Errorf("plain: %v, stopped by %q after %d units of work, %+v covers %g", s.Plain, by, s.Work, e, p)
	}
}
