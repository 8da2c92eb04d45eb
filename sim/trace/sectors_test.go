package trace

import (
	"context"
	"math"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/engine"
	"arrayodds/sim/history"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// Unreadable sectors are drawn where a life is filled in, and by the simulation where
// lives are only added up. The means are the same, and so are those
// of what is destroyed, by sectors and with sets.
func TestTracedSectorsAgreeWithPlain(t *testing.T) {
	t.Parallel()
	sites := []int{4, 6, 17} // those under skip with defects
	if !thorough.Asked() {
		sites = sites[2:]
	}
	for _, of := range sites {
		site, choice := simtest.OftenFailing()
		simtest.Sites[of].Make(&site, &choice)
		sys, err := model.New(site, choice)
		if err != nil {
			t.Fatal(err)
		}
		ctx := context.Background()
		p, _, err := engine.Simulate(ctx, sys, engine.Options{Seed: 600, Accuracy: -1, MaxTrials: 20000, Plain: true})
		if err != nil {
			t.Fatal(err)
		}
		traced := model.NewSums(sys)
		for batch := range uint64(20) {
			l, err := Run(ctx, site, choice, MaxLives, false, engine.Options{Seed: 700 + batch, Accuracy: 1, MaxTrials: 128})
			if err != nil {
				t.Fatal(err)
			}
			for _, life := range l.Lives {
				trial := traced.Begin()
				for _, e := range life.Events {
					switch e.Kind {
					case history.MeetsDefects, history.MeetsSector:
						trial.Add(model.Stripes, float64(e.Count))
						trial.Add(model.Incidents, 1)
					case history.LosesSet:
						trial.Add(model.LossEvents, 1)
						trial.Add(model.Incidents, 1)
					case history.Fails:
						trial.Add(model.Failures, 1)
					case history.Restored:
						trial.Add(model.Rebuilds, 1)
					}
				}
				trial.Add(model.Destroyed, life.Destroyed)
				traced.End()
			}
		}
		for _, q := range []model.Quantity{model.Stripes, model.Incidents, model.LossEvents, model.Failures, model.Rebuilds, model.Destroyed} {
			x, y := model.NewFit(traced).Estimate(q), model.NewFit(p).Estimate(q)
			se := math.Hypot(x.Value*x.RelativeError, y.Value*y.RelativeError)
			if x.Value == 0 || math.Abs(x.Value-y.Value) > 4*se {
				t.Errorf("%s, %s: traced %.5g, added up %.5g ± %.2g", simtest.Sites[of].Name, q, x.Value, y.Value, se)
			}
		}
	}
}
