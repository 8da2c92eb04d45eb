package sim

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
)

// Summarise returns the result of the sums of a run of a system. What a [Run] has beside
// the sums (how it stopped, exact figures, the record's interval, other bit rates) is left
// out.
func Summarise(sys *model.System, s *model.Sums) Result {
	fit := model.NewFit(s)
	r := figures(sys, s, fit)
	r.LossCurve = lossCurve(sys, s, fit, r.LossChance)
	r.LossShares = lossShares(sys, s, fit)
	if q, low, high, ok := s.Failures.Quantile(0.95); ok {
		r.DrivesReplaced95 = estimate.FromInterval(float64(q), float64(low), float64(high))
	}
	return r
}

// Figures returns what [Summarise] does without the curve, the causes and the most drives
// replaced: for those who ask little of many systems.
func Figures(sys *model.System, s *model.Sums) Result { return figures(sys, s, model.NewFit(s)) }

func figures(sys *model.System, s *model.Sums, fit *model.Fit) Result {
	years := sys.Horizon / unit.HoursPerYear
	of := func(q model.Quantity) estimate.Estimate {
		if s.Sum[q] == 0 {
			return estimate.Unseen(s.N, most(sys, q))
		}
		return fit.Estimate(q)
	}
	r := Result{
		LossChance:              engine.LossChance(sys, s, fit),
		AnyLossChance:           of(model.Any).AtMostOne(),
		LossEvents:              of(model.LossEvents),
		Incidents:               of(model.Incidents),
		UnreadableStripes:       of(model.Stripes),
		UnprotectedHoursPerYear: of(model.Unprotected).Times(1 / years),
		RebuildsPerYear:         of(model.Rebuilds).Times(1 / years),
		DrivesReplaced:          of(model.Failures),
		HasCameras:              sys.Footage.Cameras(),
		Trials:                  int(s.N),
		Work:                    s.Work,
		Plain:                   s.Plain,
		EffectiveSamples:        s.EffectiveSamples(),
		LargestShare:            engine.LargestShare(s),
		Warnings:                engine.Warnings(s),
	}
	if r.LossChance.Value == 0 && r.LossChance.High > 0 {
		r.Warnings = append(r.Warnings, "no loss was seen in the simulated lives: the upper end of the interval is all that they tell")
	}
	if sys.Footage.Cameras() {
		r.footage(sys, s, of)
	}
	return r
}

// lossShares returns what the loss chance is made of. What a choice cannot be lost by, and
// what is all that it can be lost by, is certain.
func lossShares(sys *model.System, s *model.Sums, fit *model.Fit) (shares []LossShare) {
	if s.Sum[model.Loss] == 0 {
		return nil
	}
	possible := 0
	for c := range model.Causes {
		if sys.CanBeLostBy(c) {
			possible++
		}
	}
	for c := range model.Causes {
		share := estimate.Exact(0)
		switch {
		case sys.CanBeLostBy(c) && possible == 1:
			share = estimate.Exact(1)
		case sys.CanBeLostBy(c):
			share = fit.Share(c)
		}
		shares = append(shares, LossShare{c, share})
	}
	return shares
}

// lossCurve returns the chance of a first loss by the end of each year. Where none was
// seen by then, it is at most what it is a year later.
func lossCurve(sys *model.System, s *model.Sums, fit *model.Fit, whole estimate.Estimate) []CurvePoint {
	curve := make([]CurvePoint, len(s.Curve))
	later := whole
	for i := len(curve) - 1; i >= 0; i-- {
		years := math.Min(float64(i+1), sys.Horizon/unit.HoursPerYear)
		e := fit.Curve(i).AtMostOne()
		if s.Curve[i] == 0 {
			e = estimate.Exact(0)
			if sys.CanFail(years * unit.HoursPerYear) {
				e = estimate.Unseen(s.N, 1).AtMostOne()
			}
		}
		if e.Value == 0 {
			e.High = math.Min(e.High, later.High)
		}
		curve[i] = CurvePoint{years, e}
		later = e
	}
	return curve
}

// most returns what a quantity of which nothing was seen comes to in a life in which it
// is seen, at the most or roughly; 0 where it cannot be seen.
func most(sys *model.System, q model.Quantity) float64 {
	redundant := sys.Tolerance > 0
	destroyed, missing := sys.Footage.Full()
	switch {
	case !sys.CanFail(sys.Horizon):
		return 0
	case q == model.Stripes, q == model.MissingSectors:
		if !redundant || sys.ReadErrors == 0 && sys.LatentRate == 0 {
			return 0
		}
		if q == model.MissingSectors {
			return missing
		}
	case q == model.Unprotected:
		if !redundant {
			return 0
		}
		return sys.Repair.Mean()
	case q == model.Rebuilds:
		if !redundant {
			return 0
		}
	case q == model.Destroyed:
		return destroyed
	case q == model.MissingDrives, q == model.MissingChance:
		return missing
	}
	return 1
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
	r.MissingByRecorder = missingByRecorder(f, of(model.Failures))
	r.MissingClip = of(model.MissingChance).Plus(f.Gap + f.Short).Times(due).AtMostOne()
	if r.LossEvents.Value == 0 && r.LossEvents.High > 0 { // what was seen is of other kinds
		destroyed, missing := f.Full()
		r.CameraDaysLostPerYear.High = max(r.CameraDaysLostPerYear.High, estimate.Unseen(s.N, destroyed/24/years).High)
		r.MissingByCause.Drives.High = max(r.MissingByCause.Drives.High, estimate.Unseen(s.N, missing*due).AtMostOne().High)
		r.MissingClip.High = min(1, max(r.MissingClip.High, r.MissingClip.Value+r.MissingByCause.Drives.High))
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

// missingByRecorder returns the parts of what goes missing because of the recorder, from
// the number of drives that fail in a life.
func missingByRecorder(f *model.Footage, failures estimate.Estimate) MissingByRecorder {
	due := 1 / f.Due
	swaps := estimate.Exact(0)
	if f.PerSwap > 0 {
		swaps = failures.Times(f.PerSwap * due)
	}
	// The whole is cut to 1; so much is left of each part.
	left := 1 / math.Max(1, swaps.Value+f.Gap*due)
	part := func(gap float64) estimate.Estimate { return estimate.Exact(gap * due * left) }
	return MissingByRecorder{
		Power: part(f.Gaps.Power), SystemDisk: part(f.Gaps.SystemDisk), Mains: part(f.Gaps.Mains),
		Swaps: swaps.Times(left).AtMostOne(),
	}
}

// withinRetention returns the chance of a loss within one retention period, which
// is that share of the life, from the mean number of losses in the life.
func withinRetention(events estimate.Estimate, part float64) estimate.Estimate {
	f := func(x float64) float64 { return -math.Expm1(-x * part) }
	e := estimate.Estimate{Value: f(events.Value), Low: f(events.Low), High: f(events.High), RelativeError: events.RelativeError}
	if e.Value > 0 {
		x := events.Value * part
		e.RelativeError *= x * elementary.Exp(-x) / e.Value
	}
	return e
}
