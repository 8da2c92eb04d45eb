package engine

import (
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/array/unit"
	"arrayodds/sim/exact/spares"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// chainSystem returns the system of a chain with rebuilds of a fixed length.
func chainSystem(c spares.Chain, hours float64) *model.System {
	sys := &model.System{
		Horizon: hours, Sets: 1, GroupsPerSet: 1, Drives: c.Drives, Tolerance: c.Tolerance, Spares: c.Spares,
		Life: law.Constant{PerHour: c.FailurePerHour}, ShockRate: c.ShockPerHour, ShockChance: c.ShockChance,
		Repair: model.Repair{
			Notice: law.Fixed(0), Response: model.Wait{Law: law.Exponential(c.Response)},
			Restock: model.Wait{Law: law.Exponential(c.Restock)}, Rebuild: c.Rebuild,
		},
	}
	for k := range c.Tolerance + 1 {
		sys.Degraded = append(sys.Degraded, math.Pow(max(1, c.DegradedFactor), float64(k)))
	}
	return sys
}

// lossByFixedRebuild returns the exact loss chance of a chain with rebuilds of a fixed
// length, by Richardson's extrapolation over 1, 2, 4 and 8 stages, and about how far off
// it may be: what the last of them changed. It is what
// [spares.Chain.LossByFixedRebuild] does with fewer stages, in a hundredth of the time.
func lossByFixedRebuild(c spares.Chain, hours float64) (chance, off float64) {
	return extrapolated(c, func(c spares.Chain) float64 { return c.LossBy(hours) })
}

// extrapolated does so with any chance of the chain.
func extrapolated(c spares.Chain, chanceOf func(spares.Chain) float64) (chance, off float64) {
	if c.Rebuild == 0 {
		return chanceOf(c), 0
	}
	var row []float64
	for c.Stages = 1; c.Stages <= 8; c.Stages *= 2 {
		next := []float64{chanceOf(c)}
		for i, before := range row {
			next = append(next, next[i]+(next[i]-before)/(float64(int(2)<<i)-1))
		}
		row = next
	}
	last := len(row) - 1
	return row[last], math.Abs(row[last] - row[last-1])
}

// spareChains are settings of a group with hot spares that run out.
var spareChains = []struct {
	drives, tolerance, spares          int
	life, response, restock, rebuild   float64 // mean hours
	years                              float64
	accuracy                           float64
	degraded, shocksPerYear, eachDrive float64
}{
	{drives: 2, tolerance: 1, spares: 1, life: 1.2e6, response: 1000, restock: 1000, rebuild: 6, years: 5},
	{drives: 2, tolerance: 1, spares: 2, life: 1e6, response: 2000, restock: 2000, rebuild: 2, years: 5},
	{drives: 2, tolerance: 1, spares: 3, life: 4e6, response: 4000, restock: 4000, years: 5},
	{drives: 3, tolerance: 1, spares: 4, life: 1e6, response: 3000, restock: 3000, years: 5, accuracy: 0.1},
	{drives: 3, tolerance: 2, spares: 2, life: 8e5, response: 2000, restock: 1000, years: 5, accuracy: 0.1},
	{drives: 3, tolerance: 2, spares: 1, life: 1e6, response: 720, restock: 1500, rebuild: 10, years: 5},
	{drives: 3, tolerance: 1, spares: 1, life: 3e5, response: 72, restock: 336, rebuild: 20, years: 5},
	{drives: 4, tolerance: 1, spares: 1, life: 1e6, response: 500, restock: 500, rebuild: 12, years: 5},
	{drives: 4, tolerance: 1, spares: 3, life: 5e5, response: 2000, restock: 1500, rebuild: 1, years: 5},
	{drives: 5, tolerance: 1, spares: 2, life: 1e6, response: 1000, restock: 700, rebuild: 4, years: 5},
	{drives: 6, tolerance: 1, spares: 1, life: 2e5, response: 168, restock: 336, rebuild: 24, years: 10},
	{drives: 8, tolerance: 1, spares: 4, life: 3e5, response: 2160, restock: 2160, rebuild: 3, years: 5},
	{drives: 12, tolerance: 1, spares: 2, life: 8e5, response: 1000, restock: 1440, rebuild: 8, years: 5},
	{drives: 24, tolerance: 1, spares: 1, life: 1.5e6, response: 300, restock: 500, rebuild: 15, years: 3},
	{drives: 36, tolerance: 1, spares: 4, life: 1.2e6, response: 500, restock: 700, rebuild: 10, years: 5},
	{drives: 4, tolerance: 2, spares: 1, life: 1e6, response: 1000, restock: 1000, rebuild: 6, years: 5},
	{drives: 4, tolerance: 2, spares: 2, life: 4e5, response: 1500, restock: 1000, rebuild: 10, years: 5},
	{drives: 6, tolerance: 2, spares: 1, life: 6e5, response: 200, restock: 700, rebuild: 18, years: 5},
	{drives: 8, tolerance: 2, spares: 2, life: 1.2e6, response: 2160, restock: 1440, rebuild: 8, years: 5},
	{drives: 8, tolerance: 2, spares: 4, life: 3e5, response: 2000, restock: 2000, rebuild: 2, years: 5},
	{drives: 12, tolerance: 2, spares: 2, life: 1.2e6, response: 1000, restock: 1000, rebuild: 7.4, years: 5},
	{drives: 12, tolerance: 2, spares: 3, life: 6e5, response: 1440, restock: 2160, rebuild: 12, years: 5},
	{drives: 16, tolerance: 2, spares: 1, life: 1e6, response: 500, restock: 300, rebuild: 30, years: 5},
	{drives: 24, tolerance: 2, spares: 2, life: 1.5e6, response: 1000, restock: 720, rebuild: 20, years: 5},
	{drives: 36, tolerance: 2, spares: 3, life: 1e6, response: 800, restock: 800, rebuild: 10, years: 5},
	{drives: 36, tolerance: 2, spares: 1, life: 5e5, response: 100, restock: 300, rebuild: 24, years: 3},
	{drives: 6, tolerance: 3, spares: 1, life: 4e5, response: 300, restock: 500, rebuild: 12, years: 3},
	{drives: 8, tolerance: 3, spares: 1, life: 3e5, response: 1500, restock: 1000, rebuild: 20, years: 5, accuracy: 0.1},
	{drives: 8, tolerance: 3, spares: 2, life: 3e5, response: 500, restock: 500, rebuild: 10, years: 5, accuracy: 0.1},
	{drives: 12, tolerance: 3, spares: 3, life: 6e5, response: 2160, restock: 1440, rebuild: 7.4, years: 5, accuracy: 0.2},
	{drives: 16, tolerance: 3, spares: 1, life: 8e5, response: 500, restock: 1000, rebuild: 20, years: 5, accuracy: 0.1},
	{drives: 24, tolerance: 3, spares: 2, life: 1e6, response: 500, restock: 500, rebuild: 12, years: 5, accuracy: 0.1},
	{drives: 36, tolerance: 3, spares: 4, life: 5e5, response: 700, restock: 700, rebuild: 10, years: 5},
	{drives: 8, tolerance: 4, spares: 1, life: 1e5, response: 400, restock: 400, rebuild: 6, years: 3, accuracy: 0.1},
	{drives: 12, tolerance: 4, spares: 2, life: 1e5, response: 400, restock: 400, rebuild: 6, years: 2, accuracy: 0.1},
	{drives: 24, tolerance: 4, spares: 1, life: 5e5, response: 300, restock: 300, rebuild: 24, years: 3, accuracy: 0.1},
	{drives: 36, tolerance: 4, spares: 2, life: 6e5, response: 1000, restock: 700, rebuild: 12, years: 5, accuracy: 0.2},
	{drives: 8, tolerance: 2, spares: 2, life: 8e5, response: 1000, restock: 1000, rebuild: 12, years: 5, degraded: 2},
	{drives: 12, tolerance: 3, spares: 2, life: 8e5, response: 300, restock: 500, rebuild: 12, years: 3, degraded: 3, accuracy: 0.1},
	{drives: 12, tolerance: 2, spares: 2, life: 1.2e6, response: 1000, restock: 1000, rebuild: 8, years: 5, shocksPerYear: 0.02, eachDrive: 0.001},
	{drives: 8, tolerance: 1, spares: 1, life: 1e6, response: 500, restock: 700, rebuild: 8, years: 5, shocksPerYear: 0.05, eachDrive: 0.01},
}

// Where hot spares run out, the 95 % interval covers the exact chance in 90 to 99 % of
// 200 seeds, at ±5 % or, where lives are dear, ±10 or 20 %, which is harder. A true 95 %
// misses that in 1 of 600 such counts: once in 15 runs of all settings with other seeds.
// The upper bound is asked only where the interval is as wide as was asked for: where 512
// lives tell far more than that, what one of them may hide makes up the interval.
//
// That is with -calibrate. Without it is 33 to 40 of 40 seeds at every sixth setting,
// each tolerance and a common cause among them (without make thorough at two of these),
// from intervals twice as wide, which a true 95 % misses in 1 of 800 counts, and with -short
// 24 to 30 of 30.
func TestIntervalCoversWhereSparesRunOut(t *testing.T) {
	t.Parallel()
	seeds, fewest, mostOf, step := 40, 33, 40, 6
	switch {
	case *thorough.Calibrate:
		seeds, fewest, mostOf, step = 200, 180, 198, 1
	case testing.Short():
		seeds, fewest, mostOf, step = 30, 24, 30, 18
	case !thorough.Asked():
		step = 36
	}
	least, most := 1.0, 0.0
	all := 0
	for i, s := range spareChains {
		if i%step != 3%step {
			continue
		}
		c := spares.Chain{
			Drives: s.drives, Tolerance: s.tolerance, Spares: s.spares, FailurePerHour: 1 / s.life, DegradedFactor: s.degraded,
			Response: s.response, Restock: s.restock, Rebuild: s.rebuild,
			ShockPerHour: s.shocksPerYear / unit.HoursPerYear, ShockChance: s.eachDrive,
		}
		hours := s.years * unit.HoursPerYear
		p, off := lossByFixedRebuild(c, hours)
		if off > 1e-3*p {
			t.Errorf("%+v: %.3g may be off by %.2g", s, p, off)
		}
		least, most = min(least, p), max(most, p)
		sys := chainSystem(c, hours)
		accuracy := max(0.05, s.accuracy)
		if !*thorough.Calibrate {
			accuracy *= 2
		}
		covered, width, z, squares := 0, 0.0, 0.0, 0.0
		for seed := range seeds {
			e := lossOf(t, sys, Options{Seed: uint64(7000 + seed), Accuracy: accuracy, MaxTrials: 1e6, LossOnly: true})
			if e.Low <= p && p <= e.High {
				covered++
			}
			width += (e.High - e.Value) / e.Value / float64(seeds)
			x := simtest.StandardErrors(e, p)
			z += x / float64(seeds)
			squares += x * x / float64(seeds)
		}
		all += covered
		t.Logf("%d: %+v: p %.3g, %d of %d cover it; standard errors %.2f, %.2f in the root of their squares", i, s, p, covered, seeds, z, math.Sqrt(squares))
		if covered < fewest || covered > mostOf && width > accuracy/2 {
			t.Errorf("%+v: p %.3g: %d of %d intervals cover it, meant are %d to %d", s, p, covered, seeds, fewest, mostOf)
		}
	}
	t.Logf("chances from %.2g to %.2g", least, most)
	if *thorough.Calibrate && (least > 1e-13 || most < 1e-3) {
		t.Errorf("chances from %g to %g were tried, meant are 10^-13 to 10^-3", least, most)
	}
}

// Where about one in two stays with a spare out has another failure, lines of which such
// failures are forced and others lie side by side, and a line that has a twin for them
// must not have them itself: the estimate lies within 4 standard errors of the chain.
// (They did, and a loss chance of 0.034 came out as 0.060.)
func TestLossChanceWhereSparesAreOftenOut(t *testing.T) {
	t.Parallel()
	for i, c := range []spares.Chain{
		{Drives: 8, Tolerance: 2, Spares: 2, FailurePerHour: 1.0 / 8760, Response: 400, Restock: 600, Rebuild: 50},
		{Drives: 8, Tolerance: 2, Spares: 3, FailurePerHour: 1.0 / 12000, Response: 300, Restock: 900, Rebuild: 30},
		{Drives: 12, Tolerance: 3, Spares: 2, FailurePerHour: 1.0 / 15000, Response: 200, Restock: 800, Rebuild: 40},
		{Drives: 6, Tolerance: 1, Spares: 2, FailurePerHour: 1.0 / 30000, Response: 300, Restock: 3000, Rebuild: 10},
	} {
		if !thorough.Part(i, 4) {
			continue
		}
		const hours = 2 * unit.HoursPerYear
		p, off := lossByFixedRebuild(c, hours)
		if off > 1e-3*p {
			t.Errorf("%+v: %.3g may be off by %.2g", c, p, off)
		}
		e := lossOf(t, chainSystem(c, hours), Options{Seed: 3, Accuracy: 0.02, MaxTrials: 20000, LossOnly: true, Branching: true})
		t.Logf("%+v: %.4g ± %.2g, exact %.4g", c, e.Value, e.Value*e.RelativeError, p)
		if d := simtest.StandardErrors(e, p); !(math.Abs(d) < 4) {
			t.Errorf("%+v: %.4g ± %.2g, exact %.4g: %.1f standard errors", c, e.Value, e.Value*e.RelativeError, p, d)
		}
	}
}

// The same in several groups, of which the chain knows nothing, against plain lives: what
// a group's twin and its line see of the others must be the same, also once a spare is
// back. (It was not, and 0.18 came out as 0.13.)
func TestSparesOfSeveralGroupsAgreeWithPlain(t *testing.T) {
	t.Parallel()
	thorough.Only(t, "lives with so many failures take a second")
	restocks := []float64{600}
	if *thorough.Calibrate {
		restocks = append(restocks, 200)
	}
	for i, restock := range restocks {
		site, choice := simtest.OftenFailing()
		choice.HotSpares, choice.Drives, choice.Groups = 1, 24, 4
		choice.Care.Response, choice.Care.Restock = array.Exponential{Mean: 400}, array.Exponential{Mean: restock}
		sys, err := model.New(site, choice)
		if err != nil {
			t.Fatal(err)
		}
		p := lossOf(t, sys, Options{Seed: uint64(i), Accuracy: -1, MaxTrials: 8000, Plain: true})
		e := lossOf(t, sys, Options{Seed: uint64(i), Accuracy: -1, MaxTrials: 1024, Branching: true})
		t.Logf("restock %g h: %.4g ± %.2g, plain %.4g ± %.2g", restock, e.Value, e.Value*e.RelativeError, p.Value, p.Value*p.RelativeError)
		if se := math.Hypot(e.Value*e.RelativeError, p.Value*p.RelativeError); math.Abs(e.Value-p.Value) > 4*se || se > 0.05*p.Value {
			t.Errorf("restock %g h: %.4g ± %.2g, plain %.4g ± %.2g", restock, e.Value, e.Value*e.RelativeError, p.Value, p.Value*p.RelativeError)
		}
	}
}
