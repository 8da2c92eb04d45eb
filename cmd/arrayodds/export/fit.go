package export

import (
	"io"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/fit"
	"arrayodds/sim/study"
)

// fitJSON writes what was found in a record as one object. Rates are failures per
// drive-year, low and high the 95 % interval. What the form of the record cannot
// give, and an end of an interval that it does not bound, is null.
func fitJSON(w io.Writer, f study.Fit) error {
	return writeJSON(w, object{
		{"format", formatNumber},
		{"groups", list(orEmpty(f.Results), fitObject)},
	})
}

func fitObject(r fit.Result) any {
	return object{
		{"label", r.Label},
		{"drives", given(r.Drives)},
		{"failures", r.Failures},
		{"drive_days", r.DriveDays},
		{"afr", interval(r.AFR.Value, r.AFR.Low, r.AFR.High)},
		{"exponential", object{{"log_likelihood", r.ExponentialLogLikelihood}}},
		{"weibull", weibullObject(r.Weibull)},
		{"likelihood_ratio_p", given(r.LikelihoodRatioP)},
		{"afr_by_year", list(r.ByYear, func(y fit.Year) any {
			return append(object{{"year", y.Year}, {"drive_days", y.DriveDays}, {"failures", y.Failures}},
				interval(y.AFR.Value, y.AFR.Low, y.AFR.High)...)
		})},
		{"survival", list(r.Survival, func(s fit.Survived) any {
			return append(object{{"hours", s.Hours}}, interval(s.Value, s.Low, s.High)...)
		})},
		{"rate_crossings", list(r.Crossings, func(c fit.Crossing) any {
			return object{{"yearly_rate", c.Rate}, {"rises", c.Rising}, {"within_record", c.Seen}, {"age_years", profileInterval(c.Age.Times(1.0 / unit.HoursPerYear))}}
		})},
		{"life", lifeText(r.Life)},
		{"warnings", orEmpty(r.Warnings)},
	}
}

func weibullObject(w *fit.Weibull) any {
	if w == nil {
		return nil
	}
	return object{
		{"shape", profileInterval(w.Shape)},
		{"scale_hours", profileInterval(w.Scale)},
		{"log_likelihood", w.LogLikelihood},
	}
}

// profileInterval returns the object of a shape or a scale, without an end that is
// 0 or infinite: neither is a bound.
func profileInterval(e estimate.Estimate) object {
	low := bounded(e.Low)
	if e.Low == 0 {
		low = nil
	}
	return interval(e.Value, low, bounded(e.High))
}

// lifeText returns a life law as a site file has it, nil if there is none. The
// errors of a fit stand under weibull, so that the text is in the form that any
// reader of a site file takes.
func lifeText(life array.Life) any {
	if life == nil {
		return nil
	}
	if f, ok := life.(array.FittedWeibull); ok {
		life = array.WeibullLife{Shape: f.Shape, Scale: f.Scale}
	}
	return life.SiteFile()
}
