package engine

import (
	"context"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// A group of 1 000 drives that stands one failure is lost over and over in 50 years. Lines
// multiply without end there, and plain lives are so long that a pilot sees few of them:
// they are simulated all the same, and show that every life has a loss.
func TestLongLivesThatAllLoseArePlain(t *testing.T) {
	t.Parallel()
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
