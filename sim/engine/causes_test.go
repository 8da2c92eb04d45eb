package engine

import (
	"context"
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/exact/spares"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// In every life, of either simulation, the causes make up the chance of a first loss,
// and none is met that the system says cannot be.
func TestCausesAddUpToTheLossInEveryLife(t *testing.T) {
	t.Parallel()
	for i, c := range simtest.Sites {
		if !thorough.Part(i, 6) {
			continue
		}
		site, choice := simtest.OftenFailing()
		c.Make(&site, &choice)
		sys, err := model.New(site, choice)
		if err != nil {
			t.Fatal(err)
		}
		for _, plain := range []bool{false, true} {
			losses := 0
			one, sums, rnd := NewSimulator(sys, plain), model.NewSums(sys), stream.New(uint64(i), 0)
			sums.FiguresOnly = true
			lives := 64
			if plain {
				lives = 4000 // most see no loss
			}
			for range lives {
				tr := sums.Begin()
				if !one.Life(rnd, tr) {
					t.Fatal("a life has no end")
				}
				whole, sum := tr.Amounts[model.Loss], 0.0
				for by, x := range tr.ByCause {
					sum += x
					if x != 0 && !sys.CanBeLostBy(model.Cause(by)) {
						t.Errorf("%s, plain %t: lost by %v, which cannot be", c.Name, plain, model.Cause(by))
					}
				}
				if math.Abs(sum-whole) > 1e-12*whole {
					t.Errorf("%s, plain %t: causes add up to %g of %g", c.Name, plain, sum, whole)
				}
				if whole > 0 {
					losses++
				}
				sums.End()
			}
			if losses == 0 {
				t.Errorf("%s, plain %t: no loss", c.Name, plain)
			}
		}
	}
}

// What the ends of the exact chain are called here, where there are hot spares or none.
func causesOf(c spares.Chain) [spares.Ends]model.Cause {
	if c.Spares > 0 {
		return [spares.Ends]model.Cause{model.SparesOut, model.Rebuilding, model.CommonCause}
	}
	return [spares.Ends]model.Cause{model.Waiting, model.Rebuilding, model.CommonCause}
}

// Against the exact chain with killed states: the share of each cause lies in its 95 %
// interval for 33 of 40 seeds at least, which a true 95 % misses in 1 of 800 counts; there
// is no upper bound, since the intervals allow for what was not seen. With -calibrate it
// is 180 of 200 (184 to 197 were seen), and with -short 15 of 20, missed in 1 of 3 000.
func TestSharesAgainstTheChain(t *testing.T) {
	t.Parallel()
	seeds, fewest := 40, 33
	switch {
	case *thorough.Calibrate:
		seeds, fewest = 200, 180
	case testing.Short():
		seeds, fewest = 20, 15
	}
	for i, c := range []struct {
		spares.Chain
		years    float64
		accuracy float64
	}{
		{Chain: spares.Chain{Drives: 8, Tolerance: 1, FailurePerHour: 1e-6, Response: 48, Rebuild: 24}, years: 5},
		{Chain: spares.Chain{Drives: 12, Tolerance: 2, FailurePerHour: 2e-6, Response: 72, Rebuild: 20}, years: 5},
		{Chain: spares.Chain{Drives: 8, Tolerance: 3, FailurePerHour: 2e-6, Response: 24, Rebuild: 30}, years: 5, accuracy: 0.1},
		{Chain: spares.Chain{Drives: 12, Tolerance: 2, FailurePerHour: 1e-6, Response: 24, Rebuild: 24, ShockPerHour: 1e-6, ShockChance: 0.01}, years: 5},
		{Chain: spares.Chain{Drives: 6, Tolerance: 1, Spares: 1, FailurePerHour: 5e-6, Response: 168, Restock: 336, Rebuild: 24}, years: 10},
		{Chain: spares.Chain{Drives: 36, Tolerance: 1, Spares: 4, FailurePerHour: 1 / 1.2e6, Response: 500, Restock: 700, Rebuild: 10}, years: 5},
		{Chain: spares.Chain{Drives: 16, Tolerance: 2, Spares: 1, FailurePerHour: 1e-6, Response: 500, Restock: 300, Rebuild: 30}, years: 5},
		{Chain: spares.Chain{Drives: 12, Tolerance: 2, Spares: 2, FailurePerHour: 1 / 1.2e6, Response: 1000, Restock: 1000, Rebuild: 8, ShockPerHour: 0.02 / unit.HoursPerYear, ShockChance: 0.001}, years: 5},
	} {
		if !thorough.Part(i, 4) {
			continue
		}
		hours := c.years * unit.HoursPerYear
		whole, _ := extrapolated(c.Chain, func(c spares.Chain) float64 { return c.LossBy(hours) })
		sys := chainSystem(c.Chain, hours)
		if c.Spares == 0 {
			sys.Repair.Restock.Law = sys.Repair.Response.Law // Exponential(0) is no law
		}
		var truth [spares.Ends]float64
		for end := range spares.Ends {
			part, off := extrapolated(c.Chain, func(c spares.Chain) float64 { return c.LossByEnd(end, hours) })
			truth[end] = part / whole
			if off > 5e-3*part { // the intervals are wider by far
				t.Errorf("%+v: share %.3g may be off by %.2g of it", c, truth[end], off/part)
			}
		}
		var covered [spares.Ends]int
		var z, squares [spares.Ends]float64
		for seed := range seeds {
			s, _, err := Simulate(context.Background(), sys, Options{Seed: uint64(300 + seed), Accuracy: max(0.05, c.accuracy), MaxTrials: 1e6, LossOnly: true})
			if err != nil {
				t.Fatal(err)
			}
			fit, sum := model.NewFit(s), 0.0
			for end, by := range causesOf(c.Chain) {
				e := fit.Share(by)
				sum += e.Value
				if e.Low < 0 || e.High > 1 || e.Value > 0 && e.Value < 1 && !(e.Low < e.Value && e.Value < e.High) {
					t.Errorf("%+v: %v %+v", c, by, e)
				}
				if e.Holds(truth[end]) {
					covered[end]++
				}
				if e.RelativeError > 0 && e.Value > 0 {
					x := simtest.StandardErrors(e, truth[end])
					z[end] += x / float64(seeds)
					squares[end] += x * x / float64(seeds)
				}
			}
			if math.Abs(sum-1) > 1e-9 {
				t.Errorf("%+v: shares add up to %g", c, sum)
			}
		}
		for end, by := range causesOf(c.Chain) {
			if c.ShockPerHour == 0 && by == model.CommonCause {
				continue
			}
			t.Logf("%+v: p %.3g, %v %.3g: %d of %d cover it; standard errors %.2f, %.2f in the root of their squares", c, whole, by, truth[end], covered[end], seeds, z[end], math.Sqrt(squares[end]))
			if covered[end] < fewest {
				t.Errorf("%+v: %v %.3g: %d of %d intervals cover it, meant are %d", c, by, truth[end], covered[end], seeds, fewest)
			}
		}
	}
}

// shared are sites of differing kinds where both simulations tell what made a loss.
var shared = []simtest.Variation{
	{Name: "wait and rebuild", Make: func(_ *array.Site, c *array.Choice) {}},
	{Name: "parallel rebuilds, exponential waits", Make: func(_ *array.Site, c *array.Choice) {
		c.Care.Parallel = true
		c.Care.Notice, c.Care.Response = array.Exponential{Mean: 10}, array.Exponential{Mean: 60}
	}},
	{Name: "common cause", Make: func(s *array.Site, _ *array.Choice) {
		s.Hazards = array.Hazards{CommonPerYear: 0.3, CommonEachDrive: 0.25, DegradedMultiplier: 1}
	}},
	{Name: "stop, read errors and defects", Make: func(_ *array.Site, c *array.Choice) {
		c.Drive.LatentMean, c.Drive.ReadErrorBits, c.Care.Stop = 50000, 1e15, true
		c.Care.Scrub = array.Fixed{Hours: 168}
	}},
	{Name: "hot spares", Make: func(_ *array.Site, c *array.Choice) {
		c.HotSpares, c.Drives = 2, 8
		c.Care.Response, c.Care.Restock = array.Exponential{Mean: 400}, array.Exponential{Mean: 600}
	}},
	{Name: "hot spares, common cause over sets, stop", Make: func(s *array.Site, c *array.Choice) {
		s.Hazards = array.Hazards{CommonPerYear: 0.5, CommonEachDrive: 0.2, DegradedMultiplier: 1.5}
		c.Layout, c.Drives, c.Groups, c.HotSpares = array.Layout{Level: array.RAID5}, 12, 3, 1
		c.Drive.Life, c.Drive.LatentMean, c.Care.Stop = array.ConstantRate{AFR: 0.2}, 50000, true
	}},
	{Name: "RAID 10", Make: func(_ *array.Site, c *array.Choice) {
		c.Layout, c.Drives, c.Groups = array.Layout{Level: array.RAID10}, 8, 2
		c.Drive.Life = array.WeibullLife{Shape: 1.4, Scale: 12000}
	}},
	{Name: "RAID 60", Make: func(s *array.Site, c *array.Choice) {
		c.Layout, c.Drives, c.Groups = array.Layout{Level: array.RAID60}, 12, 2
		s.Hazards.CommonPerYear, s.Hazards.CommonEachDrive = 0.1, 0.3
		c.Drive.ReadErrorBits, c.Care.Stop = 1e15, true
	}},
	{Name: "JBOD", Make: func(s *array.Site, c *array.Choice) {
		c.Layout, c.Drives = array.Layout{Level: array.JBOD}, 3
		s.Hazards.CommonPerYear, s.Hazards.CommonEachDrive = 0.5, 0.6
	}},
	{Name: "frailty, infant mortality, open hours", Make: func(_ *array.Site, c *array.Choice) {
		c.Drive.Life, c.Drive.BatchVariance = array.WeibullLife{Shape: 0.7, Scale: 15000}, 0.5
		c.Care.Response = array.OpenHours{Within: 20, Week: unit.Week{{From: 8, To: 17}, {From: 32, To: 41}, {From: 56, To: 65}}}
	}},
}

// Forced branching and the plain simulation agree in every share to 4 standard errors.
func TestSharesOfBranchingAgreeWithPlain(t *testing.T) {
	t.Parallel()
	plainLives, branchingLives := int64(20000), int64(2048)
	switch {
	case *thorough.Calibrate:
		plainLives, branchingLives = 60000, 4096
	case testing.Short():
		plainLives, branchingLives = 4000, 1024
	}
	for i, c := range shared {
		if !thorough.Part(i, 5) {
			continue
		}
		t.Run(c.Name, func(t *testing.T) {
			site, choice := simtest.OftenFailing()
			c.Make(&site, &choice)
			sys, err := model.New(site, choice)
			if err != nil {
				t.Fatal(err)
			}
			run := func(plain bool, lives int64) *model.Fit {
				s, _, err := Simulate(context.Background(), sys, Options{Seed: uint64(500 + i), Accuracy: -1, MaxTrials: lives, Plain: plain, Branching: !plain})
				if err != nil {
					t.Fatal(err)
				}
				return model.NewFit(s)
			}
			p, b := run(true, plainLives), run(false, branchingLives)
			told := 0
			for by := range model.Causes {
				x, y := p.Share(by), b.Share(by)
				if !sys.CanBeLostBy(by) {
					if x.Value != 0 || y.Value != 0 {
						t.Errorf("%v cannot be, plain %g, branching %g", by, x.Value, y.Value)
					}
					continue
				}
				t.Logf("%-14v plain %.4f (%.4f to %.4f), branching %.4f (%.4f to %.4f)", by, x.Value, x.Low, x.High, y.Value, y.Low, y.High)
				if d := math.Abs(x.Value - y.Value); d > 4*math.Hypot(wide(x), wide(y)) {
					t.Errorf("%v: plain %+v, branching %+v", by, x, y)
				}
				if x.Value > 0.01 && y.Value > 0.01 {
					told++
				}
			}
			if told < 2 {
				t.Errorf("only %d causes are told", told)
			}
		})
	}
}

// wide returns the standard error that an interval of a normal law would have.
func wide(e estimate.Estimate) float64 { return (e.High - e.Low) / (2 * estimate.Z95) }
