package engine_test

import (
	"math"
	"testing"

	"arrayodds/sim/engine"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// A run with a fixed number of blocks has the lives of any other run with as many: the
// same sums but for the order in which they are added.
func TestFixedBlocksAreTheSameLives(t *testing.T) {
	t.Parallel()
	for i, s := range []*model.System{
		simtest.OneGroup(8, 2, law.Constant{PerHour: 1e-6}, law.Fixed(24), 20_000),
		simtest.OneGroup(2, 1, law.Weibull{Shape: 1.2, Scale: 30_000}, law.Fixed(100), 40_000), // plain lives
	} {
		opt := engine.Options{Seed: uint64(i), Plain: i == 1, Accuracy: -1, MaxTrials: 21 * engine.TrialsPerBlock}
		want, _, err := engine.Simulate(t.Context(), s, opt)
		if err != nil {
			t.Fatal(err)
		}
		opt.Blocks, opt.MaxTrials = 21, 1000
		got, by, err := engine.Simulate(t.Context(), s, opt)
		if err != nil || by != engine.ByBudget || got.N != want.N || got.Work != want.Work || got.Largest != want.Largest || got.Plain != want.Plain || got.Plain != (i == 1) {
			t.Fatalf("%v, stopped by %v: %v lives and %v work, want %v and %v", err, by, got.N, got.Work, want.N, want.Work)
		}
		for q, x := range got.Sum {
			if y := want.Sum[q]; math.Abs(x-y) > 1e-12*math.Abs(y) {
				t.Errorf("%v: %v, want %v", model.Quantity(q), x, y)
			}
		}
	}
}
