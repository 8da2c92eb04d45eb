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

// What is noted in a year for the controls has the mean 0 in each, for lives that age,
// fail without redundancy or with it, and have common-cause events before and after their
// first failure. (It is compared as 1 more, to which its error is small.)
func TestYearsHaveTheMeanNought(t *testing.T) {
	t.Parallel()
	for tolerance := range 3 {
		for _, ageing := range []law.Life{law.Constant{PerHour: 4e-6}, law.Weibull{Shape: 2, Scale: 3e5}} {
			sys := systemOf(2, 4, tolerance, ageing, law.Exponential(200))
			sys.ShockRate, sys.ShockChance = 1e-5, 0.3
			b, rnd, sums := New(sys), stream.New(5, uint64(tolerance)), model.NewSums(sys)
			means := make([][2]simtest.Mean, model.CurveLength(sys.Horizon))
			for life := range thorough.Count(24000, 14000) {
				tr := sums.Begin()
				if !b.Life(rnd, tr) {
					t.Fatal("a life has no end")
				}
				if life%model.Strata == model.Strata-1 { // the batch is full
					for year, of := range tr.Years {
						for c, x := range of {
							means[year][c].Add(1 + x)
						}
					}
				}
				sums.End()
			}
			for year := range means {
				for c := range means[year] {
					means[year][c].Is(t, fmt.Sprintf("tolerance %d, %T, year %d, control %d", tolerance, ageing, year+1, c), 1)
				}
			}
		}
	}
}
