package branch

import (
	"fmt"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// What is noted of failures for the controls has the mean 0, for originals and for drives
// that replaced them: where they fail seldom and often, with frailty and without, when
// hazards rise, fall, or have their steps, where several batches leave no originals, and
// in lives that begin with drives of several ages.
// (It is compared as 1 more, to which its error is small.)
func TestArrivalsHaveTheMeanNought(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		life             law.Life
		groups, batches  int
		frailty, restock float64
		ages             bool
	}{
		"rising":           {law.Weibull{Shape: 2, Scale: 4e4}, 1, 0, 0, 0, false},
		"rising, spares":   {law.Weibull{Shape: 2, Scale: 4e4}, 2, 0, 0, 500, false},
		"falling":          {law.Weibull{Shape: 0.7, Scale: 4e4}, 2, 0, 0.5, 0, false},
		"steps":            {law.NewSteps([]float64{3e-5, 1e-5, 6e-5}, 8760), 1, 0, 0.5, 0, false},
		"constant":         {law.Constant{PerHour: 1e-5}, 1, 0, 1, 0, false},
		"constant, dealt":  {law.Constant{PerHour: 1e-5}, 1, 2, 1, 0, false},
		"seldom, a single": {law.Weibull{Shape: 1.12, Scale: 4e5}, 1, 0, 0, 0, false},
		"rising, ages":     {law.Weibull{Shape: 2, Scale: 4e4}, 1, 0, 0.5, 0, true},
		"constant, ages":   {law.Constant{PerHour: 1e-5}, 1, 0, 0, 0, true},
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
		if c.ages {
			sys.Start = &model.Start{Phase: math.NaN(), Cleared: make([]float64, sys.Groups())}
			for i := range sys.Groups() * sys.Drives {
				sys.Start.Drives = append(sys.Start.Drives, model.StartDrive{Age: 2000 * float64(i), First: true})
			}
			sys.Start.BatchOf(sys.Frailty, 0, 0)
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
