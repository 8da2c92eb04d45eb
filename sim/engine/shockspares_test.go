package engine

import (
	"context"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// Common-cause events that take hot spares, whose restock is a matter of chance: what
// follows while spares are out is seen as plain lives see it.
func TestCommonCauseTakesSpares(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "half a million lives take two seconds, and fewer tell nothing")
	sys := simtest.OneGroup(8, 1, law.Constant{PerHour: 1.0 / 200000}, nil, 43800)
	sys.Repair = model.Repair{Rebuild: 1, Notice: law.Fixed(0), Response: model.Wait{Law: law.Fixed(2000)}, Restock: model.Wait{Law: law.Exponential(2000)}}
	sys.Spares = 1
	sys.ShockRate, sys.ShockChance = 1.0/8760, 0.02
	run := func(plain bool, trials int64) (value, standardError float64) {
		s, _, err := Simulate(context.Background(), sys, Options{Seed: 2, Accuracy: -1, MaxTrials: trials, Plain: plain, Branching: !plain})
		if err != nil {
			t.Fatal(err)
		}
		e := model.NewFit(s).Estimate(model.Loss)
		return e.Value, e.Value * e.RelativeError
	}
	plain, errorOfPlain := run(true, 400000)
	branching, errorOfBranching := run(false, 100000)
	se := math.Hypot(errorOfPlain, errorOfBranching)
	if math.Abs(branching-plain) > 4*se || se > 0.015*plain {
		t.Errorf("%.4g by branching, %.4g by plain lives, ± %.2g", branching, plain, se)
	}
}
