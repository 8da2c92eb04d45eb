package engine

import (
	"context"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/exact"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// 36 drives that fail often for their repairs of 200 hours side by side: over 20 seeds
// 16 to 20 of the intervals cover the exact chance, which a true 95 % misses once in 390,
// with -calibrate 43 to 50 of 50.
func TestIntervalCoversManySlowRepairs(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "twenty runs take some seconds, and fewer tell nothing")
	sys := parallel(simtest.OneGroup(36, 4, law.Constant{PerHour: 1.0 / 60000}, law.Exponential(200), 43800))
	p := chainOf(sys).LossBy(sys.Horizon)
	seeds, least := 20, 16
	if *thorough.Calibrate {
		seeds, least = 50, 43
	}
	covered := 0
	for seed := range seeds {
		e := lossOf(t, sys, Options{Seed: uint64(500 + seed), Accuracy: 0.05, MaxTrials: 1e6, LossOnly: true})
		if e.Low <= p && p <= e.High {
			covered++
		}
	}
	t.Logf("p = %.3g: %d of %d intervals cover it", p, covered, seeds)
	if covered < least {
		t.Errorf("p = %.3g: %d of %d intervals cover it", p, covered, seeds)
	}
}

// Tolerance 8 to 16 with a small budget: the interval covers the exact chance, or the
// result says that it is not to be trusted, or no loss was seen. Of 20 runs each, 16 at
// least (a true 95 % has fewer in 1 of 380 such counts).
func TestHighToleranceIsCoveredOrWarned(t *testing.T) {
	t.Parallel()
	for i, tolerance := range []int{8, 10, 12, 16} {
		if !thorough.Part(i, 3) {
			continue
		}
		for k, trials := range []int64{128, 512} {
			if !thorough.Part(k, 2) {
				continue
			}
			sys := simtest.OneGroup(tolerance+2, tolerance, law.Constant{PerHour: 1.0 / 100000}, law.Exponential(100), 43800)
			p := exact.Chain{
				Drives: sys.Drives, Tolerance: tolerance, FailurePerHour: 1.0 / 100000, RestorePerHour: 1.0 / 100,
			}.LossBy(sys.Horizon)
			covered, warned := 0, 0
			for seed := range 20 {
				s, _, err := Simulate(context.Background(), sys, Options{Seed: uint64(seed), Accuracy: 0.05, MaxTrials: trials, MaxWork: 2e6, LossOnly: true})
				if err != nil {
					t.Fatal(err)
				}
				e := model.NewFit(s).Estimate(model.Loss)
				switch {
				case e.Value == 0, len(Warnings(s)) > 0:
					warned++
				case e.Low <= p && p <= e.High:
					covered++
				}
			}
			t.Logf("tolerance %d, %d trials: p = %.3g: %d covered, %d warned", tolerance, trials, p, covered, warned)
			if covered+warned < 16 {
				t.Errorf("tolerance %d, %d trials: p = %.3g: of 20 runs %d cover it and %d warn", tolerance, trials, p, covered, warned)
			}
		}
	}
}

// Chances whose square is no number any more have an interval that covers them as any
// other: drives that live a thousand times as long and far more. So rare are failures
// then that no life has two but by force, which the controls must not be misled by.
func TestIntervalOfTheRarest(t *testing.T) {
	t.Parallel()
	for _, life := range []float64{1e9, 1e12, 1e27, 1e30, 1e65} {
		sys := simtest.OneGroup(8, 3, law.Constant{PerHour: 1 / life}, law.Exponential(48), 43800)
		p := chainOf(sys).LossBy(sys.Horizon)
		covered := 0
		for seed := range 40 {
			e := lossOf(t, sys, Options{Seed: uint64(seed), Accuracy: 0.05, MaxTrials: 1e5, LossOnly: true})
			if e.Low <= p && p <= e.High && e.Low < e.High && !math.IsInf(e.High, 0) && e.High < 1.2*p {
				covered++
			}
		}
		t.Logf("p = %.3g: %d of 40 intervals cover it", p, covered)
		if covered < 34 { // a true 95 % has fewer in 1 of 300 such counts
			t.Errorf("p = %.3g: %d of 40 intervals cover it", p, covered)
		}
	}
}
