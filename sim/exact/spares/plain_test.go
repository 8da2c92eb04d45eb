package spares

import (
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/stream"
)

// The chain has the rules of the simulation: where losses are common, so many lives
// event by event lose as many as the chain says, within 4 standard errors.
func TestAgainstSingleLives(t *testing.T) {
	t.Parallel()
	lives := 40000
	if testing.Short() {
		lives = 4000
	}
	for i, c := range []Chain{
		{Drives: 6, Tolerance: 1, Spares: 1, FailurePerHour: 1e-4, Response: 200, Restock: 700},
		{Drives: 6, Tolerance: 2, Spares: 2, FailurePerHour: 1e-4, DegradedFactor: 1.5, Response: 300, Restock: 900, Rebuild: 40},
		{Drives: 5, Tolerance: 1, Spares: 1, FailurePerHour: 2e-5, Response: 50, Restock: 2000, Rebuild: 150},
		{Drives: 8, Tolerance: 2, Spares: 1, FailurePerHour: 2e-5, Response: 400, Restock: 700, Rebuild: 60, ShockPerHour: 5e-5, ShockChance: 0.1},
	} {
		if i%2 == 0 && !thorough.Asked() {
			continue
		}
		p, off := c.LossByFixedRebuild(2 * 8760)
		if off > 1e-5*p {
			t.Errorf("%+v: %g may be off by %g", c, p, off)
		}
		sys := &model.System{
			Horizon: 2 * 8760, Sets: 1, GroupsPerSet: 1, Drives: c.Drives, Tolerance: c.Tolerance, Spares: c.Spares,
			Life: law.Constant{PerHour: c.FailurePerHour}, ShockRate: c.ShockPerHour, ShockChance: c.ShockChance,
			Repair: model.Repair{
				Notice: law.Fixed(0), Response: model.Wait{Law: law.Exponential(c.Response)},
				Restock: model.Wait{Law: law.Exponential(c.Restock)}, Rebuild: c.Rebuild,
			},
		}
		for k := range c.Tolerance + 1 {
			sys.Degraded = append(sys.Degraded, math.Pow(max(1, c.DegradedFactor), float64(k)))
		}
		one, sums := plain.New(sys), model.NewSums(sys)
		for k := range lives {
			one.Life(stream.New(4, uint64(k)), sums.Begin())
			sums.End()
		}
		got := sums.Sum[model.Loss] / sums.N
		z := (got - p) / math.Sqrt(p*(1-p)/sums.N)
		t.Logf("loss chance %.5f, by lives %.5f, %.1f standard errors", p, got, z)
		if !(math.Abs(z) < 4) || p < 0.02 || p > 0.9 {
			t.Errorf("%+v: loss chance %.5f, by lives %.5f, %.1f standard errors", c, p, got, z)
		}
	}
}
