package sim

import (
	"math"

	"arrayodds/array/unit"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
)

// Summarise returns the result of the sums of a run of a system. plain says that
// they are of the plain simulation, in which every trial has a loss or none. What a
// [Run] has beside the sums (how it stopped, exact figures, the record's interval,
// other bit rates) is left out.
func Summarise(sys *model.System, s *model.Sums, plain bool) Result {
	years := sys.Horizon / unit.HoursPerYear
	fit := model.NewFit(s)
	of := fit.Estimate
	chance := func(sum float64, weighted estimate.Estimate) estimate.Estimate {
		if plain { // every trial is 0 or 1
			return estimate.Proportion(sum, s.N)
		}
		return weighted.AtMostOne()
	}
	r := Result{
		LossChance:              chance(s.Sum[model.Loss], of(model.Loss)),
		AnyLossChance:           chance(s.Sum[model.Any], of(model.Any)),
		LossEvents:              of(model.LossEvents),
		Incidents:               of(model.Incidents),
		UnreadableStripes:       of(model.Stripes),
		UnprotectedHoursPerYear: of(model.Unprotected).Times(1 / years),
		RebuildsPerYear:         of(model.Rebuilds).Times(1 / years),
		DrivesReplaced:          of(model.Failures),
		HasCameras:              sys.Footage.Cameras(),
		Trials:                  int(s.N),
		EffectiveSamples:        engine.EffectiveSamples(s),
		LargestShare:            engine.LargestShare(s),
		Warnings:                engine.Warnings(s),
	}
	if plain && s.Sum[model.LossEvents] == 0 {
		r.LossEvents = estimate.Unseen(s.N, 1)
		r.Warnings = append(r.Warnings, "no loss was seen in the plain simulation: the upper end of the interval is all that it tells")
	}
	for i := range s.Curve {
		r.LossCurve = append(r.LossCurve, CurvePoint{
			Years:    math.Min(float64(i+1), years),
			Estimate: chance(s.Curve[i], fit.Curve(i)),
		})
	}
	if q, low, high, ok := s.Failures.Quantile(0.95); ok {
		r.DrivesReplaced95 = estimate.FromInterval(float64(q), float64(low), float64(high))
	}
	if sys.Footage.Cameras() {
		r.footage(sys, s, of)
	}
	return r
}

// footage fills in the figures that rest on cameras.
func (r *Result) footage(sys *model.System, s *model.Sums, of func(model.Quantity) estimate.Estimate) {
	f := &sys.Footage
	years := sys.Horizon / unit.HoursPerYear

	r.LossChanceRetention = withinRetention(r.LossEvents, f.Retention/sys.Horizon)
	r.CameraDaysLostPerYear = of(model.Destroyed).Times(1 / (24 * years))
	due := 1 / f.Due
	r.MissingByCause = MissingByCause{
		Drives:     of(model.MissingDrives).Times(due).AtMostOne(),
		Unreadable: of(model.MissingSectors).Times(due).AtMostOne(),
		Recorder:   of(model.Failures).Times(f.PerSwap * due).Plus(f.Gap * due).AtMostOne(),
		Shortfall:  estimate.Exact(f.Short * due),
	}
	r.MissingClip = of(model.MissingChance).Plus(f.Gap + f.Short).Times(due).AtMostOne()
	if r.LossEvents.Value == 0 && r.LossEvents.High > 0 {
		destroyed, missing := f.Full()
		r.CameraDaysLostPerYear.High = max(r.CameraDaysLostPerYear.High, estimate.Unseen(s.N, destroyed/24/years).High)
		r.MissingByCause.Drives = estimate.Unseen(s.N, missing*due).AtMostOne()
		r.MissingClip.High = min(1, r.MissingClip.High+r.MissingByCause.Drives.High)
	}
	for _, q := range []struct {
		Proportion float64
		into       *estimate.Estimate
	}{{0.5, &r.CameraDaysPerLossHalf}, {0.95, &r.CameraDaysPerLoss95}} {
		if v, low, high, ok := s.PerLoss.Quantile(q.Proportion); ok {
			*q.into = estimate.FromInterval(model.LossAmount(v)/24, model.LossAmount(low)/24, model.LossAmount(high)/24)
		}
	}
}

// withinRetention returns the chance of a loss within one retention period, which
// is that share of the life, from the mean number of losses in the life.
func withinRetention(events estimate.Estimate, part float64) estimate.Estimate {
	f := func(x float64) float64 { return -math.Expm1(-x * part) }
	e := estimate.Estimate{Value: f(events.Value), Low: f(events.Low), High: f(events.High), RelativeError: events.RelativeError}
	if e.Value > 0 {
		x := events.Value * part
		e.RelativeError *= x * math.Exp(-x) / e.Value
	}
	return e
}
