package model

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// The law of a batch once its failures are known is, by Bayes, the prior times the
// likelihood z^d·exp(−z·H): its mean and its square by gonum's quadrature.
func TestBatchOfIsBayes(t *testing.T) {
	for _, c := range []struct {
		variance float64
		failed   int
		hazard   float64
	}{
		{1, 0, 0.3}, {1, 2, 0.3}, {0.5, 1, 0.05}, {2, 3, 1}, {0.2, 0, 4},
	} {
		var s Start
		s.BatchOf(c.variance, c.failed, c.hazard)
		prior := distuv.Gamma{Alpha: 1 / c.variance, Beta: 1 / c.variance}
		moment := func(k float64) float64 {
			// In u = √z, since the prior may have a pole at 0.
			return quad.Fixed(func(u float64) float64 {
				z := u * u
				return 2 * u * math.Pow(z, k+float64(c.failed)) * math.Exp(-z*c.hazard) * prior.Prob(z)
			}, 0, 8, 4000, nil, 0)
		}
		mean, square := moment(1)/moment(0), moment(2)/moment(0)
		if got := s.Shape * s.Scale; math.Abs(got-mean) > 1e-4*mean {
			t.Errorf("%+v: mean %g, want %g", c, got, mean)
		}
		if got := s.Shape * (s.Shape + 1) * s.Scale * s.Scale; math.Abs(got-square) > 1e-4*square {
			t.Errorf("%+v: mean square %g, want %g", c, got, square)
		}
	}
	var s Start
	if s.BatchOf(0, 3, 1); s.Shape != 0 {
		t.Errorf("without variance: %+v", s)
	}
}
