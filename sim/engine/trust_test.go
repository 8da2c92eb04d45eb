package engine

import (
	"context"
	"strings"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// A sample that rests on one trial does not stop a run, however small its error
// looks, and is not passed off as an answer.
func TestWarnings(t *testing.T) {
	sys := simtest.OneGroup(8, 1, simtest.HalfMillionHours, law.Exponential(48), 43800)
	s := model.NewSums(sys)
	for i := range 200 {
		tr := s.Begin()
		w := 1e-6
		if i == 17 {
			w = 1e-3
		}
		tr.FirstLoss(100, w, model.Rebuilding)
		s.End()
	}
	why := strings.Join(Warnings(s), "\n")
	if !strings.Contains(why, "independent samples") || !strings.Contains(why, "one simulated life makes 83 %") {
		t.Errorf("the warnings are %q", why)
	}

	fine, _, err := Simulate(context.Background(), sys, Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil {
		t.Fatal(err)
	}
	if why := Warnings(fine); len(why) > 0 {
		t.Errorf("a good sample has warnings: %q", why)
	}
}
