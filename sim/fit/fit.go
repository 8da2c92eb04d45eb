package fit

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"

	"gonum.org/v1/gonum/stat/distuv"
)

// Result is what was found of the drives that go by one label. What the record
// cannot tell is nil.
type Result struct {
	Label     string
	Drives    *int // nil where the record gives sums
	Failures  float64
	DriveDays float64
	Oldest    float64 // the greatest age seen, in hours; NaN where the record gives no ages

	AFR    estimate.Estimate // failures per drive-year of 365 days
	ByYear []Year            // by year of age, those without drive-days left out

	// ExponentialLogLikelihood is that of the best constant rate, for
	// comparison with Weibull's.
	ExponentialLogLikelihood float64
	Weibull                  *Weibull
	// LikelihoodRatioP is the chance of a likelihood ratio as great as was
	// found, or greater, if the rate were constant: chi-squared on one degree
	// of freedom.
	LikelihoodRatioP *float64
	Survival         []Survived

	// Life is the law that the record decides for: array.FittedWeibull, with its
	// standard errors, where it tells an ageing law from a constant rate, else
	// array.FieldRecord, which carries the doubt about the rate along. It is nil
	// where the record implies a rate that no site file may hold.
	Life array.Life
	// Crossings is where the yearly rate of that law passes [CrossedRates]; nil where
	// it is constant.
	Crossings []Crossing
	Warnings  []string
}

// Fleet fits the record of one label, which has at least one drive or one sum.
func Fleet(f array.Fleet) Result {
	r := Result{Label: f.Label, Oldest: math.NaN()}
	var rec record
	if f.Drives != nil {
		rec = recordOf(f.Drives)
		n := len(f.Drives)
		r.Drives = &n
		r.Failures, r.DriveDays, r.Oldest = rec.failures, rec.hours/24, rec.longest
		r.ByYear = rec.byYear()
		r.Survival = rec.survival()
		r.ExponentialLogLikelihood = exponential(r.Failures, rec.hours)
		if r.Weibull = rec.weibull(); r.Weibull != nil {
			// Rounding may leave the better law a hair below the worse.
			ratio := math.Max(0, 2*(r.Weibull.LogLikelihood-r.ExponentialLogLikelihood))
			p := distuv.ChiSquared{K: 1}.Survival(ratio)
			r.LikelihoodRatioP = &p
		}
	} else {
		for _, c := range f.Sums {
			r.Failures += c.Failures
			r.DriveDays += c.DriveDays
			if c.To > 0 {
				r.Oldest = math.Max(c.To*unit.HoursPerYear, nought(r.Oldest))
			}
		}
		r.ByYear = yearsOf(f.Sums)
		r.ExponentialLogLikelihood = exponential(r.Failures, r.DriveDays*24)
	}
	r.AFR = Rate(r.Failures, r.DriveDays)
	r.decide()
	if r.Survival != nil {
		r.Crossings = rec.crossings(r.Weibull, r.Life, r.Survival[0].Hours)
	}
	r.warn(f)
	return r
}

// nought returns x, or 0 for NaN.
func nought(x float64) float64 {
	if math.IsNaN(x) {
		return 0
	}
	return x
}

// What a record must have for its Weibull law to be taken.
const (
	enoughFailures = 10   // common practice, no source: with fewer, the shape is anybody's guess
	decisive       = 0.05 // of the likelihood-ratio test
)

// Bounds of what a site file may hold.
const (
	leastLifeShape, mostLifeShape = 0.2, 20
	leastLifeScale, mostLifeScale = 10, 1e10 // hours
	mostAFR                       = 10       // failures per drive-year
	leastDriveDays                = 1
)

// decide sets Life to the law that a site file should be given.
func (r *Result) decide() {
	if w := r.Weibull; r.decided() &&
		w.Shape.Value >= leastLifeShape && w.Shape.Value <= mostLifeShape &&
		w.Scale.Value >= leastLifeScale && w.Scale.Value <= mostLifeScale {
		r.Life = w.life()
		return
	}
	if (r.Failures+jeffreys)/r.DriveDays*daysPerYear <= mostAFR && r.DriveDays >= leastDriveDays {
		r.Life = array.FieldRecord{Failures: r.Failures, DriveDays: r.DriveDays}
	}
}

// decided reports whether the record tells an ageing law from a constant rate.
func (r *Result) decided() bool {
	return r.Weibull != nil && r.Failures >= enoughFailures && *r.LikelihoodRatioP < decisive && r.Weibull.bounded()
}

// bounded reports whether the record bounds shape and scale: the low end of the one
// and the high ends of both.
func (w *Weibull) bounded() bool {
	return w.Shape.Low > 0 && !math.IsInf(w.Shape.High, 1) && !math.IsInf(w.Scale.High, 1)
}
