package branch

import (
	"fmt"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// What is noted of failures for the controls has the mean 0, for originals and for drives
// that replaced them: where they fail seldom and often, with frailty and without, when
// hazards rise, fall, or have their steps, and where several batches leave no originals.
// (It is compared as 1 more, to which its error is small.)
func TestArrivalsHaveTheMeanNought(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		life             law.Life
		groups, batches  int
		frailty, restock float64
	}{
		"rising":           {law.Weibull{Shape: 2, Scale: 4e4}, 1, 0, 0, 0},
		"rising, spares":   {law.Weibull{Shape: 2, Scale: 4e4}, 2, 0, 0, 500},
		"falling":          {law.Weibull{Shape: 0.7, Scale: 4e4}, 2, 0, 0.5, 0},
		"steps":            {law.NewSteps([]float64{3e-5, 1e-5, 6e-5}, 8760), 1, 0, 0.5, 0},
		"constant":         {law.Constant{PerHour: 1e-5}, 1, 0, 1, 0},
		"constant, dealt":  {law.Constant{PerHour: 1e-5}, 1, 2, 1, 0},
		"seldom, a single": {law.Weibull{Shape: 1.12, Scale: 4e5}, 1, 0, 0, 0},
	} {
		if c.restock == 0 && !thorough.Asked() {
			c.groups = 1 // two have ten times as many branches
		}
		sys := systemOf(c.groups, 4, 2, c.life, law.Exponential(200))
		sys.Frailty, sys.Batches = c.frailty, c.batches
		if c.restock > 0 {
			sys.Repair = model.Repair{Rebuild: 30, Restock: model.Wait{Law: law.Exponential(c.restock)}, Notice: law.Fixed(1), Response: model.Wait{Law: law.Exponential(100)}}
			sys.Spares = 2
		}
		b, rnd, sums := New(sys), stream.New(6, 0), model.NewSums(sys)
		var means [2]simtest.Mean
		for range thorough.Count(15000, 5000) {
			tr := sums.Begin()
			if !b.Life(rnd, tr) {
				t.Fatal("a life has no end")
			}
			for i, x := range []float64{tr.Controls[model.Arrivals], tr.Controls[model.LateArrivals]} {
				means[i].Add(1 + x)
			}
			sums.End()
		}
		for i := range means {
			means[i].Is(t, fmt.Sprintf("%s, control %d", name, i), 1)
		}
	}
}
