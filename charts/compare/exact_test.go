package compare

import (
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
)

// A JBOD's loss chance is a closed form, summed up over trials, and the exact
// chain comes to the same by another way: 13 drives of 1 % a year over 5 years.
func TestExactBesideClosedForm(t *testing.T) {
	t.Parallel()
	site := array.Site{ServiceLife: 5 * unit.HoursPerYear, Hazards: array.Hazards{DegradedMultiplier: 1}}
	c := array.Choice{Label: "JBOD", Layout: array.Layout{Level: array.JBOD}, Drives: 13, Groups: 1,
		Drive: array.Drive{Capacity: 4e12, Life: array.ConstantRate{AFR: 0.01}, HazardMultiplier: 1, Transfer: 2e8},
		Care:  array.Care{Notice: array.Fixed{Hours: 1}, Response: array.Fixed{Hours: 24}, Restock: array.Fixed{Hours: 72}, RebuildShare: 0.5, RebuildFloor: 2e7}}
	x, err := sim.Run(t.Context(), site, c, engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6})
	if err != nil {
		t.Fatal(err)
	}
	if x.LossChance.Low != x.LossChance.High || *x.Exact == x.LossChance.Value {
		t.Fatalf("%+v beside %v is no case of rounding", x.LossChance, *x.Exact)
	}
	z, err := site.Size(c)
	if err != nil {
		t.Fatal(err)
	}
	r := newReport(study.Comparison{Site: site, Outcomes: []study.Outcome{{Choice: c, Sizing: z, Result: x}}})
	if sub := r.comparedCells(r.Outcomes[0])[1].Sub; strings.Contains(sub, "outside") {
		t.Errorf("the exact figure is said to be %q", sub)
	}
	// One that is off by more than rounding is said to be outside.
	off := *x.Exact * (1 + 1e-6)
	r.Outcomes[0].Result.Exact = &off
	if sub := r.comparedCells(r.Outcomes[0])[1].Sub; !strings.Contains(sub, "outside the simulation's interval") {
		t.Errorf("a figure off by a millionth is said to be %q", sub)
	}
}
