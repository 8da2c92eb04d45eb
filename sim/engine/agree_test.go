package engine

import (
	"context"
	"fmt"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/estimate"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// Forced branching and the plain simulation share the system, the footage and the
// tallies and nothing else. Where losses are common enough for the plain one, every
// output of both must agree. The sites are made up to reach every rule; none is
// meant to look like one that anybody runs.

// trialsOf returns how many trials tell the two simulations of a system apart at the
// least cost: a seventh more or less of the loss chance is seen on most of the sites (a
// tenth with -calibrate, a third with -short). A plain life has the larger variance and takes less time, the more so
// where drives age and where their rate is drawn for each life.
func trialsOf(sys *model.System) (plain, branching int64) {
	plain, branching = 20000, 4096
	if _, constant := sys.Life.(law.Constant); !constant {
		plain, branching = 20000, 3072
	}
	if sys.Uncertain > 0 { // its drives fail by the dozen
		plain, branching = 16000, 1024
	}
	switch {
	case *thorough.Calibrate:
		return plain, branching
	case testing.Short():
		return plain / 20, max(512, branching/8)
	}
	if sys.Uncertain > 0 { // few of fewer lives would say how far they are off
		return plain / 2, branching
	}
	return plain / 2, branching / 2
}

func TestBranchingAgreesWithPlain(t *testing.T) {
	t.Parallel()
	for i, c := range simtest.Sites {
		if !thorough.Part(i, 6) {
			continue
		}
		t.Run(c.Name, func(t *testing.T) {
			site, choice := simtest.OftenFailing()
			c.Make(&site, &choice)
			sys, err := model.New(site, choice)
			if err != nil {
				t.Fatal(err)
			}
			agree(t, sys, uint64(100+i))
		})
	}
}

// agree holds every output of both simulations of a system against each other.
func agree(t *testing.T, sys *model.System, seed uint64) {
	run := func(plain bool, trials int64) *model.Sums {
		s, _, err := Simulate(context.Background(), sys, Options{Seed: seed, Accuracy: -1, MaxTrials: trials, Plain: plain, Branching: !plain})
		if err != nil {
			t.Fatal(err)
		}
		return s
	}
	plain, branching := trialsOf(sys)
	p, b := run(true, plain), run(false, branching)
	pf, bf := model.NewFit(p), model.NewFit(b)
	compare := func(name string, x, y estimate.Estimate) {
		se := math.Hypot(x.Value*x.RelativeError, y.Value*y.RelativeError)
		if (x.Value == 0) != (y.Value == 0) {
			t.Errorf("%s: plain %g, branching %g", name, x.Value, y.Value)
		} else if d := math.Abs(x.Value - y.Value); d > 4*se && d > 1e-12*x.Value {
			t.Errorf("%s: plain %.5g ± %.2g, branching %.5g ± %.2g: %.1f standard errors apart",
				name, x.Value, x.Value*x.RelativeError, y.Value, y.Value*y.RelativeError, (x.Value-y.Value)/se)
		}
		t.Logf("%-20s plain %.5g ± %.2g, branching %.5g ± %.2g", name, x.Value, x.Value*x.RelativeError, y.Value, y.Value*y.RelativeError)
	}
	for q := range p.Sum {
		compare(model.Quantity(q).String(), pf.Estimate(model.Quantity(q)), bf.Estimate(model.Quantity(q)))
	}
	for y := range p.Curve {
		compare(fmt.Sprintf("loss by year %d", y+1), pf.Curve(y), bf.Curve(y))
	}
	for i := range p.Steps {
		compare(fmt.Sprintf("loss by step %d", i+1), pf.Step(i), bf.Step(i))
	}
}
