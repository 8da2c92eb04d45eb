// Package law has the laws of chance that the simulation draws from: how long a
// drive lives and how long a wait, a rebuild or a latent defect lasts.
//
// A life is told by its cumulative hazard H(age): the chance to outlive an age
// is exp(−H). A length of time is told by its draws, its moments, and its
// tilted draws: those of the law with density proportional to x^r f(x), from
// which long lengths are drawn as often as they matter when r further failures
// must fall into them. Every law of a length of chance has its tilted law in
// closed form. [OpenHours] is no such law: it depends on when it begins.
//
// One law stands in one file. A new one needs its file here, its struct in
// package array, a line in [OfLife] or [OfTime], and a line where the site file
// names laws.
//
// Hours everywhere.
package law

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// Life is how a drive of one model ages.
type Life interface {
	// Cumulative is the cumulative hazard at an age; 0 at age 0.
	Cumulative(age float64) float64
	// Over is Cumulative(age+d) − Cumulative(age), good to full relative
	// precision also where d is small against the age.
	Over(age, d float64) float64
	// Rate is the hazard per hour at an age. It may be +Inf at age 0.
	Rate(age float64) float64
	// Age is the age at which the cumulative hazard reaches h; +Inf where it
	// never does.
	Age(h float64) float64
	// Mean is the mean life.
	Mean() float64
}

// OfLife is the law that a site describes, its hazard multiplied by scale. For
// a field record it is the law at a Gamma variate of 1: the caller multiplies
// the hazard by a draw from Gamma(uncertain), once per simulated life. For a
// law whose rate is certain, uncertain is 0.
func OfLife(l array.Life, scale float64) (life Life, uncertain float64, err error) {
	switch l := l.(type) {
	case array.ConstantRate:
		return Constant{l.AFR / unit.HoursPerYear * scale}, 0, nil
	case array.WeibullLife:
		// A multiplied hazard is the same law with a shorter scale.
		return Weibull{Shape: l.Shape, Scale: l.Scale * math.Pow(scale, -1/l.Shape), Min: l.Min}, 0, nil
	case array.FittedWeibull:
		// The law at the estimates; [OfFitted] has the doubt about them.
		return OfLife(array.WeibullLife{Shape: l.Shape, Scale: l.Scale}, scale)
	case array.RateByYear:
		perHour := make([]float64, len(l.AFR))
		for i, afr := range l.AFR {
			perHour[i] = afr / unit.HoursPerYear * scale
		}
		return NewSteps(perHour, unit.HoursPerYear), 0, nil
	case array.FieldRecord:
		return Constant{scale / (l.DriveDays * 24)}, l.Failures + 0.5, nil
	}
	return nil, 0, fmt.Errorf("no law for a life of type %T", l)
}

// OfFitted is the uncertain law of a fitted life, its hazard multiplied by
// scale; nil for any other life, and for one whose fit is without error.
func OfFitted(l array.Life, scale float64) *Fitted {
	f, ok := l.(array.FittedWeibull)
	if !ok || f.ShapeError == 0 && f.ScaleError == 0 {
		return nil
	}
	return &Fitted{Weibull{Shape: f.Shape, Scale: f.Scale}, scale, f.ShapeError, f.ScaleError, f.Correlation}
}
