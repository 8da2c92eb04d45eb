package branch

import (
	"testing"

	"arrayodds/sim/branch/sample"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/stream"
)

// A sample takes no draw from the lives, and catches a loss at every mark.
func TestSamplingChangesNothing(t *testing.T) {
	for _, groups := range []int{1, 3} { // detours; twins
		sys := &model.System{
			Horizon: 20000, Sets: groups, GroupsPerSet: 1, Drives: 5, Tolerance: 1, Degraded: []float64{1, 1.5},
			Life: law.Weibull{Shape: 1.3, Scale: 30000}, Frailty: 0.5, Stop: true, LatentRate: 1e-6, ReadErrors: 0.05,
			Spares: 1, ShockRate: 1e-5, ShockChance: 0.3,
			Repair: model.Repair{Notice: law.Exponential(10), Response: model.Wait{Law: law.Exponential(90)}, Restock: model.Wait{Law: law.Fixed(500)}, Rebuild: 20},
		}
		simulate := func(marks []float64) (*model.Sums, *sample.Losses) {
			b, sums, rnd := New(sys), model.NewSums(sys), stream.New(3, 4)
			r := sample.New(marks, stream.New(5, 6))
			if marks != nil {
				b.Sample(r)
			}
			for range 300 {
				if !b.Life(rnd, sums.Begin()) {
					t.Fatal("a life did not end")
				}
				sums.End()
			}
			return sums, r
		}
		plain, _ := simulate(nil)
		var marks []float64
		for i := range 500 {
			marks = append(marks, plain.Sum[model.Loss]*(float64(i)+0.5)/500)
		}
		sampled, r := simulate(marks)
		if plain.Sum != sampled.Sum {
			t.Errorf("%d groups: %v, sampled %v", groups, plain.Sum, sampled.Sum)
		}
		if len(r.Caught) != 500 || len(r.Marks) != 0 || r.TooLong {
			t.Errorf("%d groups: %d histories are caught at 500 marks, %d marks are left", groups, len(r.Caught), len(r.Marks))
		}
	}
}
