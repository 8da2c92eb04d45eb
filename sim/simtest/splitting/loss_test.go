package splitting

import (
	"fmt"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/exact"
	"arrayodds/sim/exact/spares"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

const fiveYears = 43800

// is fails where a result is not a chance within 4 standard errors, or not known well.
func is(t *testing.T, what string, r Result, want, accuracy float64) {
	t.Helper()
	z := simtest.StandardErrors(r.Estimate, want)
	t.Logf("%s: %.4g ± %.1f %%, %.4g is right: %.1f standard errors; largest %.3f, %.0f windows a life", what, r.Value, 100*r.RelativeError, want, z, r.Largest, r.Windows)
	if !(math.Abs(z) < 4) || r.RelativeError > accuracy {
		t.Errorf("%s: %.4g ± %.1f %%, %.4g is right: %.1f standard errors", what, r.Value, 100*r.RelativeError, want, z)
	}
}

// fewer divides lives by 4 with -short, which doubles standard errors.
func fewer(opt Options) Options {
	if testing.Short() {
		opt.Lives, opt.PilotLives = opt.Lives/4, opt.PilotLives/4
	}
	return opt
}

// known is the relative standard error that a result must be known to: 0.1, so that 40 %
// of it show, or thrice as much with -short.
func known() float64 {
	if testing.Short() {
		return 0.3
	}
	return 0.1
}

// Against the exact chain without spares, common cause among it.
func TestLossAgainstTheChain(t *testing.T) {
	t.Parallel()
	for i, c := range []exact.Chain{
		{Drives: 8, Tolerance: 0},
		{Drives: 8, Tolerance: 1},
		{Drives: 8, Tolerance: 4},
		{Drives: 24, Tolerance: 2, Parallel: true, DegradedFactor: 3},
		{Drives: 100, Tolerance: 3},
		{Drives: 12, Tolerance: 3, ShockPerHour: 1e-5, ShockChance: 0.02},
		{Drives: 8, Tolerance: 2, ShockPerHour: 1e-9, ShockChance: 0.3, Parallel: true},
	} {
		if !thorough.Part(i, 3) {
			continue
		}
		c.FailurePerHour, c.RestorePerHour = 1/500e3, 1.0/48
		sys := simtest.OneGroup(c.Drives, c.Tolerance, simtest.HalfMillionHours, law.Exponential(48), fiveYears)
		sys.Repair.Parallel = c.Parallel
		sys.ShockRate, sys.ShockChance = c.ShockPerHour, c.ShockChance
		for k := range sys.Degraded {
			sys.Degraded[k] = math.Pow(max(1, c.DegradedFactor), float64(k))
		}
		is(t, fmt.Sprintf("%+v", c), Loss(sys, fewer(Options{Seed: 1, PilotLives: 1000, Lives: 3000})), c.LossBy(fiveYears), known())
	}
}

// spared returns the system of a chain with spares. Its rebuilds are of a fixed length.
func spared(c spares.Chain) *model.System {
	sys := simtest.OneGroup(c.Drives, c.Tolerance, law.Constant{PerHour: c.FailurePerHour}, nil, fiveYears)
	sys.Spares, sys.ShockRate, sys.ShockChance = c.Spares, c.ShockPerHour, c.ShockChance
	sys.Repair = model.Repair{
		Notice: law.Fixed(0), Response: model.Wait{Law: law.Exponential(c.Response)},
		Restock: model.Wait{Law: law.Exponential(c.Restock)}, Rebuild: c.Rebuild,
	}
	for k := range sys.Degraded {
		sys.Degraded[k] = math.Pow(max(1, c.DegradedFactor), float64(k))
	}
	return sys
}

// Against the exact chain with spares that run out.
func TestLossAgainstTheChainWithSpares(t *testing.T) {
	t.Parallel()
	for i, c := range []spares.Chain{
		{Drives: 6, Tolerance: 1, Spares: 1, FailurePerHour: 1e-6, Response: 200, Restock: 700, Rebuild: 20},
		{Drives: 12, Tolerance: 2, Spares: 2, FailurePerHour: 1 / 1.2e6, Response: 1000, Restock: 1000},
		{Drives: 12, Tolerance: 3, Spares: 3, FailurePerHour: 1 / 6e5, Response: 2160, Restock: 1440},
		{Drives: 12, Tolerance: 2, Spares: 2, FailurePerHour: 1 / 1.2e6, Response: 1000, Restock: 1000, Rebuild: 20, DegradedFactor: 2},
		{Drives: 8, Tolerance: 3, Spares: 2, FailurePerHour: 1 / 1.2e6, Response: 300, Restock: 1000, Rebuild: 20, ShockPerHour: 1e-5, ShockChance: 0.01},
	} {
		if !thorough.Part(i, 5) {
			continue
		}
		p, off := c.LossByFixedRebuild(fiveYears)
		if off > 1e-4*p {
			t.Errorf("%+v: %g may be off by %g", c, p, off)
		}
		is(t, fmt.Sprintf("%+v", c), Loss(spared(c), fewer(Options{Seed: 2, PilotLives: 1500, Lives: 3000})), p, known())
	}
}

// Two settings with fixed waits of which an independent trial of splitting found 1.31e-9
// ± 0.03e-9 and 2.8e-12 ± 0.2e-12.
func TestLossOfFixedWaits(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "what the simulation is held against is held against more here")
	const rebuild = 4e12 / 150e6 / 3600 // 4 TB at 3/4 of 200 MB/s
	for _, c := range []struct {
		chain      spares.Chain
		value, off float64
	}{
		{spares.Chain{Drives: 12, Tolerance: 2, Spares: 2, FailurePerHour: 1 / 1.2e6, Response: 1000, Restock: 1000, Rebuild: rebuild}, 1.31e-9, 0.03e-9},
		{spares.Chain{Drives: 12, Tolerance: 3, Spares: 3, FailurePerHour: 1 / 6e5, Response: 2160, Restock: 1440, Rebuild: rebuild}, 2.8e-12, 0.2e-12},
	} {
		sys := spared(c.chain)
		sys.Repair.Response.Law, sys.Repair.Restock.Law = law.Fixed(c.chain.Response), law.Fixed(c.chain.Restock)
		r := Loss(sys, fewer(Options{Seed: 3, PilotLives: 3000, Lives: 6000}))
		t.Logf("%.4g ± %.2g", r.Value, r.Value*r.RelativeError)
		if math.Abs(r.Value-c.value) > c.off+3*r.Value*r.RelativeError || r.RelativeError > known() {
			t.Errorf("%.4g ± %.2g, the trial has %g ± %g", r.Value, r.Value*r.RelativeError, c.value, c.off)
		}
	}
}

// Against lives event by event on sites that reach every rule.
func TestLossAgainstSingleLives(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "what the simulation is held against is held against more here")
	const lives = 1000
	for _, v := range simtest.Sites {
		site, choice := simtest.OftenFailing()
		v.Make(&site, &choice)
		if choice.Drive.BatchVariance > 0 && choice.HotSpares > 0 { // in which failures are so many that every life is long
			site.ServiceLife /= 4
		}
		sys, err := model.New(site, choice)
		if err != nil {
			t.Fatal(err)
		}
		one, sums := plain.New(sys), model.NewSums(sys)
		for k := range lives {
			one.Life(stream.New(4, uint64(k)), sums.Begin())
			sums.End()
		}
		p := sums.Sum[model.Loss] / sums.N
		r := Loss(sys, Options{Seed: 3, Runs: 1, Lives: lives, Pilots: 3, PilotLives: 250})
		z := (r.Value - p) / math.Hypot(math.Sqrt((p*(1-p)+1/sums.N)/sums.N), r.Value*r.RelativeError)
		t.Logf("%s: %.4f ± %.1f %%, by lives %.4f, %.1f standard errors", v.Name, r.Value, 100*r.RelativeError, p, z)
		if !(math.Abs(z) < 4) {
			t.Errorf("%s: %.4f ± %.1f %%, by lives %.4f, %.1f standard errors", v.Name, r.Value, 100*r.RelativeError, p, z)
		}
	}
}

// One seed, the same digits; another seed, others.
func TestLossBySeed(t *testing.T) {
	t.Parallel()
	sys := spared(spares.Chain{Drives: 6, Tolerance: 1, Spares: 1, FailurePerHour: 1e-6, Response: 200, Restock: 700, Rebuild: 20})
	opt := Options{Seed: 5, Runs: 2, Lives: 500, PilotLives: 200}
	a, b := Loss(sys, opt), Loss(sys, opt)
	opt.Seed = 6
	if c := Loss(sys, opt); a.Value != b.Value || a.Value == c.Value {
		t.Errorf("%g, %g, and %g of another seed", a.Value, b.Value, c.Value)
	}
}
