package model

import (
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// Choices with the same open hours share one law and its mean, which is that of
// the law; others do not.
func TestBuilderSharesOpenHours(t *testing.T) {
	t.Parallel()
	office := unit.Week{{From: 8, To: 17}, {From: 32, To: 41}}
	choice := func(within float64, week unit.Week) array.Choice {
		return array.Choice{Drive: array.Drive{Capacity: 1e12, Life: array.ConstantRate{AFR: 0.02}, HazardMultiplier: 1, Transfer: 1e8},
			Layout: array.Layout{Level: array.RAID5}, Drives: 4, Groups: 1,
			Care: array.Care{Notice: array.Fixed{Hours: 1}, Response: array.OpenHours{Within: within, Week: week}, Restock: array.Fixed{Hours: 72}, RebuildShare: 1}}
	}
	var b Builder
	var waits []Wait
	for _, c := range []array.Choice{
		choice(8, office), choice(8, append(unit.Week(nil), office...)), choice(9, office), choice(8, office[:1]),
	} {
		sys, err := b.System(array.Site{ServiceLife: 43800, Hazards: array.Hazards{DegradedMultiplier: 1}}, c)
		if err != nil {
			t.Fatal(err)
		}
		waits = append(waits, sys.Repair.Response)
	}
	if waits[0].Open != waits[1].Open {
		t.Error("the mean of the same open hours is worked out twice")
	}
	for i, w := range waits[2:] {
		if w.Open == waits[0].Open {
			t.Errorf("choice %d shares open hours that it does not have", i+2)
		}
	}
	for i, w := range waits {
		if want := w.Open.Mean(); math.Abs(w.Mean()-want) > 1e-12*want {
			t.Errorf("choice %d waits for %v h on average, want %v", i, w.Mean(), want)
		}
	}
	// What was worked out is kept: it does not follow the law.
	mean := waits[0].Mean()
	if waits[0].Open.Within = 80; waits[0].Mean() != mean {
		t.Error("the mean is worked out anew each time it is asked for")
	}
}
