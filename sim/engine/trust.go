package engine

import (
	"fmt"
	"math"

	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
)

// RelativeHalfWidth returns the half-width of the loss chance's 95 % interval ÷ the
// loss chance. It is 0 where nothing can fail, and +Inf where no loss was seen
// though drives failed.
func RelativeHalfWidth(s *model.Sums) float64 {
	if s.Sum[model.Loss] == 0 {
		if s.Sum[model.Any] == 0 && s.Sum[model.Failures] == 0 {
			return 0
		}
		return math.Inf(1)
	}
	e := model.NewFit(s).Estimate(model.Loss)
	return (e.High - e.Value) / e.Value
}

// LossChance returns the loss chance of a system by the sums of its lives and a fit to
// them. Where no loss was seen, it is 0 up to what so many lives leave open.
func LossChance(sys *model.System, s *model.Sums, fit *model.Fit) estimate.Estimate {
	switch {
	case s.Sum[model.Loss] != 0:
		return fit.Estimate(model.Loss).AtMostOne()
	case !sys.CanFail(sys.Horizon):
		return estimate.Exact(0)
	}
	return estimate.Unseen(s.N, 1).AtMostOne()
}

// WidestOther returns the widest half-width ÷ value of the other figures that are shown:
// the curve's years, losses and incidents, hours without redundancy, rebuilds and
// failures, footage destroyed and missing. Figures of which nothing was seen are left
// out.
func WidestOther(s *model.Sums) (widest float64) {
	f := model.NewFit(s)
	add := func(e estimate.Estimate) {
		if e.Value > 0 {
			widest = max(widest, (e.High-e.Value)/e.Value)
		}
	}
	for q := range s.Sum {
		add(f.Estimate(model.Quantity(q)))
	}
	for i := range s.Curve {
		add(f.Curve(i))
	}
	for _, share := range []float64{0.5, 0.95} {
		if v, low, high, ok := s.PerLoss.Quantile(share); ok {
			add(estimate.FromInterval(model.LossAmount(v), model.LossAmount(low), model.LossAmount(high)))
		}
	}
	return widest
}

// What a sample needs for its interval to be trusted: common practice, no source.
const (
	minEffectiveSamples = 50
	maxLargestShare     = 0.1
)

// LargestShare returns the share of the loss chance that the largest trial makes,
// 0 to 1. It is 0 where no loss was seen.
func LargestShare(s *model.Sums) float64 {
	if s.Sum[model.Loss] == 0 {
		return 0
	}
	return s.Largest / s.Sum[model.Loss]
}

// Warnings returns why the interval of the loss chance cannot be trusted, a
// sentence each; nil where it can be.
func Warnings(s *model.Sums) (why []string) {
	if s.Sum[model.Loss] == 0 {
		return nil
	}
	if e := s.EffectiveSamples(); e < minEffectiveSamples {
		why = append(why, fmt.Sprintf("the loss chance rests on about %.0f independent samples, and its interval needs at least %d: do not trust either", e, minEffectiveSamples))
	}
	if l := LargestShare(s); l > maxLargestShare {
		why = append(why, fmt.Sprintf("one simulated life makes %.0f %% of the loss chance (%.0f %% would do): a rarer one may be missing, do not trust the interval", 100*l, 100*maxLargestShare))
	}
	return why
}
