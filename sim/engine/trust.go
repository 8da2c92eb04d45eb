package engine

import (
	"fmt"
	"math"

	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
)

// HalfWidth is the 95 % half-width of the loss chance ÷ the loss chance.
func HalfWidth(s *model.Sums) float64 {
	if s.Sum[model.Loss] == 0 {
		if s.Sum[model.Any] == 0 && s.Squares[model.Failures] == 0 {
			return 0 // nothing can fail at all
		}
		return math.Inf(1)
	}
	return estimate.Z95 * estimate.Mean(s.N, s.Sum[model.Loss], s.Squares[model.Loss]).RelativeError
}

// A sample whose sum rests on few trials tells neither its value nor its
// error.
const (
	leastEffective = 50
	mostOfOne      = 0.1
)

// EffectiveSamples is Kish's effective number of samples of the loss chance.
func EffectiveSamples(s *model.Sums) float64 {
	if s.Squares[model.Loss] == 0 {
		return 0
	}
	return s.Sum[model.Loss] * s.Sum[model.Loss] / s.Squares[model.Loss]
}

func LargestShare(s *model.Sums) float64 {
	if s.Sum[model.Loss] == 0 {
		return 0
	}
	return s.Largest / s.Sum[model.Loss]
}

// Warnings lists why the interval of the loss chance cannot be trusted.
func Warnings(s *model.Sums) (why []string) {
	if s.Sum[model.Loss] == 0 {
		return nil
	}
	if e := EffectiveSamples(s); e < leastEffective {
		why = append(why, fmt.Sprintf("the loss chance rests on about %.0f independent samples, and its interval needs at least %d: do not trust either", e, leastEffective))
	}
	if l := LargestShare(s); l > mostOfOne {
		why = append(why, fmt.Sprintf("one simulated life makes %.0f %% of the loss chance (%.0f %% would do): a rarer one may be missing, do not trust the interval", 100*l, 100*mostOfOne))
	}
	return why
}
