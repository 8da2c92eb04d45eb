package sim

import (
	"context"
	"fmt"
	"math"
	"testing"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// The two ways of telling a life share the system, the footage and the tallies
// and nothing else. Where losses are common enough for the plain one, every
// output of both must agree. The sites are made up to reach every rule; none is
// meant to look like one that anybody runs.

func TestBranchingAgreesWithPlain(t *testing.T) {
	for i, c := range simtest.Sites {
		t.Run(c.Name, func(t *testing.T) {
			site, choice := simtest.OftenFailing()
			c.Make(&site, &choice)
			sys, err := model.New(site, choice)
			if err != nil {
				t.Fatal(err)
			}
			run := func(plain bool, trials int) *model.Sums {
				s, _, err := engine.Simulate(context.Background(), sys, engine.Options{Seed: uint64(100 + i), Accuracy: -1, MaxTrials: int64(trials), Plain: plain})
				if err != nil {
					t.Fatal(err)
				}
				return s
			}
			trials := 40000
			if sys.Uncertain > 0 { // its drives fail by the dozen, which is slow to branch
				trials = 10000
			}
			p, b := run(true, trials), run(false, trials)
			compare := func(name string, ps, pq, bs, bq float64) {
				x, y := estimate.Mean(p.N, ps, pq), estimate.Mean(b.N, bs, bq)
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
				compare(model.Quantity(q).String(), p.Sum[q], p.Squares[q], b.Sum[q], b.Squares[q])
			}
			for y := range p.Curve {
				compare(fmt.Sprintf("loss by year %d", y+1), p.Curve[y], p.CurveSquares[y], b.Curve[y], b.CurveSquares[y])
			}
		})
	}
}
