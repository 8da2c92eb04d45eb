package sim

import (
	"math"

	"arrayodds/array"
	"arrayodds/sim/model"
)

// summarise makes the result of the sums of a run.
func summarise(sys *model.System, s *model.Sums, plain bool) Result {
	years := sys.Horizon / array.HoursPerYear
	of := func(q model.Quantity) Estimate { return mean(s.N, s.Sum[q], s.Squares[q]) }
	chance := func(sum, squares float64) Estimate {
		if plain { // every trial is 0 or 1
			return share(sum, s.N)
		}
		return mean(s.N, sum, squares).chance()
	}
	r := Result{
		LossChance:              chance(s.Sum[model.Loss], s.Squares[model.Loss]),
		AnyLossChance:           chance(s.Sum[model.Any], s.Squares[model.Any]),
		LossEvents:              of(model.LossEvents),
		Incidents:               of(model.Incidents),
		UnreadableStripes:       of(model.Stripes),
		UnprotectedHoursPerYear: of(model.Unprotected).scaled(1 / years),
		RebuildsPerYear:         of(model.Rebuilds).scaled(1 / years),
		DrivesReplaced:          of(model.Failures),
		HasCameras:              sys.Footage.Cameras(),
		Trials:                  int(s.N),
		EffectiveSamples:        effective(s),
		LargestShare:            largestShare(s),
		Warnings:                distrust(s),
	}
	if plain && s.Sum[model.LossEvents] == 0 {
		r.LossEvents = unseen(s.N, 1)
		r.Warnings = append(r.Warnings, "no loss was seen in the plain simulation: the upper end of the interval is all that it tells")
	}
	for i := range s.Curve {
		r.LossCurve = append(r.LossCurve, CurvePoint{
			Years:    math.Min(float64(i+1), years),
			Estimate: chance(s.Curve[i], s.CurveSquares[i]),
		})
	}
	if q, low, high, ok := s.Failures.Quantile(0.95); ok {
		r.DrivesReplaced95 = quantile(float64(q), float64(low), float64(high))
	}
	if sys.Footage.Cameras() {
		r.footage(sys, s, of)
	}
	return r
}

// footage fills in what rests on cameras.
func (r *Result) footage(sys *model.System, s *model.Sums, of func(model.Quantity) Estimate) {
	f := &sys.Footage
	years := sys.Horizon / array.HoursPerYear

	r.LossChanceRetention = withinRetention(r.LossEvents, f.Retention/sys.Horizon)
	r.CameraDaysLostPerYear = of(model.Destroyed).scaled(1 / (24 * years))
	due := 1 / f.Due
	r.MissingByCause = MissingByCause{
		Drives:     of(model.MissingDrives).scaled(due).chance(),
		Unreadable: of(model.MissingSectors).scaled(due).chance(),
		Recorder:   of(model.Failures).scaled(f.PerSwap * due).plus(f.Gap * due).chance(),
		Shortfall:  closed(f.Short * due),
	}
	r.MissingClip = of(model.MissingChance).plus(f.Gap + f.Short).scaled(due).chance()
	if r.LossEvents.Value == 0 && r.LossEvents.High > 0 {
		destroyed, missing := f.Full()
		r.CameraDaysLostPerYear.High = max(r.CameraDaysLostPerYear.High, unseen(s.N, destroyed/24/years).High)
		r.MissingByCause.Drives = unseen(s.N, missing*due).chance()
		r.MissingClip.High = min(1, r.MissingClip.High+r.MissingByCause.Drives.High)
	}
	for _, q := range []struct {
		share float64
		into  *Estimate
	}{{0.5, &r.CameraDaysPerLossHalf}, {0.95, &r.CameraDaysPerLoss95}} {
		if v, low, high, ok := s.PerLoss.Quantile(q.share); ok {
			*q.into = quantile(model.LossAmount(v)/24, model.LossAmount(low)/24, model.LossAmount(high)/24)
		}
	}
}

// unseen is the mean of what was not seen in n lives, each time being worth so
// much: nothing seen is not nothing, but no more than a Poisson count of 0
// allows.
func unseen(n, each float64) Estimate {
	return Estimate{High: -math.Log(0.025) / n * each, RelativeError: 1}
}

// withinRetention is the chance of a loss within one retention period, which
// is that share of the life, from the mean number of losses in the life.
func withinRetention(events Estimate, part float64) Estimate {
	f := func(x float64) float64 { return -math.Expm1(-x * part) }
	e := Estimate{Value: f(events.Value), Low: f(events.Low), High: f(events.High), RelativeError: events.RelativeError}
	if e.Value > 0 {
		x := events.Value * part
		e.RelativeError *= x * math.Exp(-x) / e.Value
	}
	return e
}

// quantile is an estimate told by its interval alone.
func quantile(value, low, high float64) Estimate {
	e := Estimate{Value: value, Low: low, High: high}
	if value > 0 {
		e.RelativeError = (high - low) / (2 * z95 * value)
	}
	return e
}
