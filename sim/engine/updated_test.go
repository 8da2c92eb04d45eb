package engine

import (
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// updatedLives are laws that age, updated by a log that leaves much open.
var updatedLives = map[string]array.Life{
	"Weibull": array.UpdatedLife{Of: array.WeibullLife{Shape: 1.4, Scale: 15_000, Min: 300}, Multiplier: array.Gamma{Shape: 4, Rate: 3}},
	"by year": array.UpdatedLife{Of: array.RateByYear{AFR: []float64{0.9, 0.3, 0.7}}, Multiplier: array.Gamma{Shape: 2.5, Rate: 3}},
	// What a fit leaves open where the expected failures are known has one direction.
	"a fit": array.UpdatedLife{Of: array.FittedWeibull{Shape: 1.3, Scale: 15_000, ShapeError: 0.15, ScaleError: 0.1, Correlation: -1}, Multiplier: array.Gamma{Shape: 6, Rate: 5}},
}

func TestUpdatedLivesAgreeWithPlain(t *testing.T) {
	t.Parallel()
	for name, life := range updatedLives {
		t.Run(name, func(t *testing.T) {
			t.Parallel()
			site, choice := simtest.OftenFailing()
			choice.Drive.Life = life
			choice.Drive.HazardMultiplier = 1.2
			sys, err := model.New(site, choice)
			if err != nil {
				t.Fatal(err)
			}
			agree(t, sys, 300)
		})
	}
}

// Where nothing is tolerated a loss is a failure of any of the drives: with n drives, the
// cumulative hazard H of a life and the multiplier Gamma(a, b) its chance is
// 1 − E[exp(−nHm)] = 1 − (1 + nH/b)^−a, whatever the law.
func TestUpdatedLifeInClosedForm(t *testing.T) {
	t.Parallel()
	const horizon, drives = 43_800.0, 6
	for _, of := range []array.Life{
		array.ConstantRate{AFR: 0.002}, array.WeibullLife{Shape: 1.6, Scale: 3e6, Min: 2000}, array.RateByYear{AFR: []float64{0.004, 0.001, 0.003}},
	} {
		by := array.Gamma{Shape: 3.5, Rate: 2.8}
		life, uncertain, err := law.OfLife(array.UpdatedLife{Of: of, Multiplier: by}, 1)
		if err != nil {
			t.Fatal(err)
		}
		sys := simtest.OneGroup(drives, 0, life, law.Exponential(48), horizon)
		sys.Uncertain = uncertain
		e := lossOf(t, sys, Options{Seed: 5, Accuracy: 0.01, MaxTrials: 4e6})
		p := -math.Expm1(-by.Shape * math.Log1p(drives*of.Expected(0, horizon)/by.Rate))
		if d := simtest.StandardErrors(e, p); !(math.Abs(d) < 4) {
			t.Errorf("%T: %.5g ± %.1g, closed form %.5g: %.1f standard errors", of, e.Value, e.Value*e.RelativeError, p, d)
		}
	}
}
