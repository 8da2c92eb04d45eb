package engine

import (
	"context"
	"fmt"
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/sim/estimate"
	"arrayodds/sim/exact"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"

	"gonum.org/v1/gonum/stat/combin"
)

// moment is E[z^k] of a Gamma variate of mean 1 and that variance.
func moment(variance float64, k int) float64 {
	m := 1.0
	for i := range k {
		m *= 1 + float64(i)*variance
	}
	return m
}

// Where failures are rare, a loss by tolerance + 1 of the first drives has the chance of
// drives that share nothing times the mean, over every choice of so many drives, of the
// product of their frailties. The first is the exact chain's; the choices are listed by
// gonum, and the moments are those of the Gamma law.
func TestBatchesAgainstTheChain(t *testing.T) {
	t.Parallel()
	const variance, perHour, horizon, drives = 2, 2.5e-8, 1000.0, 8
	for i, batches := range []int{2, 3, 8} {
		for _, tolerance := range []int{0, 1, 2} {
			if !thorough.Part(i+tolerance, 2) {
				continue
			}
			t.Run(fmt.Sprint(batches, " batches, tolerance ", tolerance), func(t *testing.T) {
				restore := []float64{1, 5, 300}[tolerance]
				p := exact.Chain{Drives: drives, Tolerance: tolerance, FailurePerHour: perHour, RestorePerHour: 1 / restore, DegradedFactor: 1}.LossBy(horizon)
				choices, sum := combin.Combinations(drives, tolerance+1), 0.0
				for _, chosen := range choices {
					of := make([]int, batches)
					for _, i := range chosen {
						of[i%batches]++
					}
					product := 1.0
					for _, k := range of {
						product *= moment(variance, k)
					}
					sum += product
				}
				p *= sum / float64(len(choices))
				sys := simtest.OneGroup(drives, tolerance, law.Constant{PerHour: perHour}, law.Exponential(restore), horizon)
				sys.Frailty, sys.Batches = variance, batches
				e := lossOf(t, sys, Options{Seed: 11, Accuracy: 0.01, MaxTrials: 4e6, Branching: true})
				d := simtest.StandardErrors(e, p)
				t.Logf("%.5g ± %.1g, by hand %.5g: %.1f standard errors", e.Value, e.Value*e.RelativeError, p, d)
				if !(math.Abs(e.Value/p-1) < 0.003+4*e.RelativeError) {
					t.Errorf("%.5g ± %.1g, by hand %.5g: %.1f standard errors", e.Value, e.Value*e.RelativeError, p, d)
				}
			})
		}
	}
}

// Drives dealt from several batches fail alike in both simulations.
func TestBatchesAgreeWithPlain(t *testing.T) {
	t.Parallel()
	for i, c := range []struct {
		batches int
		make    func(*array.Site, *array.Choice)
	}{
		{2, func(s *array.Site, c *array.Choice) {}},
		{3, func(s *array.Site, c *array.Choice) {
			c.Drives, c.Groups, c.Layout.Level, c.HotSpares = 14, 2, array.RAID60, 1
			c.Drive.Life = array.WeibullLife{Shape: 1.6, Scale: 12000}
		}},
		{4, func(s *array.Site, c *array.Choice) {
			c.Drive.Life = array.WeibullLife{Shape: 0.7, Scale: 15000}
			s.Hazards = array.Hazards{CommonPerYear: 0.3, CommonEachDrive: 0.3, DegradedMultiplier: 2}
		}},
	} {
		if !thorough.Part(i, 3) {
			continue
		}
		site, choice := simtest.OftenFailing()
		choice.Drive.BatchVariance = 1
		c.make(&site, &choice)
		sys, err := model.New(site, choice)
		if err != nil {
			t.Fatal(err)
		}
		sys.Batches = c.batches
		run := func(plain bool, trials int64) *model.Fit {
			s, _, err := Simulate(context.Background(), sys, Options{Seed: uint64(300 + i), Accuracy: -1, MaxTrials: trials, Plain: plain, Branching: !plain})
			if err != nil {
				t.Fatal(err)
			}
			return model.NewFit(s)
		}
		p, b := run(true, 20000), run(false, 4096)
		compare := func(name string, x, y estimate.Estimate) {
			se := math.Hypot(x.Value*x.RelativeError, y.Value*y.RelativeError)
			t.Logf("%d batches, %s: plain %.5g ± %.2g, branching %.5g ± %.2g", c.batches, name, x.Value, x.Value*x.RelativeError, y.Value, y.Value*y.RelativeError)
			if d := math.Abs(x.Value - y.Value); d > 4*se && d > 1e-12*x.Value {
				t.Errorf("%d batches, %s: plain %.5g, branching %.5g: %.1f standard errors apart", c.batches, name, x.Value, y.Value, d/se)
			}
		}
		for q := range model.Quantity(len(model.Sums{}.Sum)) {
			compare(q.String(), p.Estimate(q), b.Estimate(q))
		}
		for year := range 2 {
			compare(fmt.Sprintf("loss by year %d", year+1), p.Curve(year), b.Curve(year))
		}
	}
}
