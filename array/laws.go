package array

import "arrayodds/array/unit"

// Life is the law by which drives of one model fail. It is one of
// [ConstantRate], [WeibullLife], [RateByYear], [FieldRecord] and
// [FittedWeibull]; what is computed from it stands in package sim/law.
type Life interface{ life() }

// ConstantRate is a life without memory, given as an annualised failure rate.
type ConstantRate struct {
	// AFR is failures per drive-year of running, above 0. 0.015 is 1.5 %.
	// A year is 8 760 h, so the mean time between failures is 8760/AFR hours.
	AFR float64
}

// WeibullLife has the cumulative hazard ((age − Min)/Scale)^Shape beyond Min
// and none before it.
type WeibullLife struct {
	Shape float64 // β, above 0
	Scale float64 // η in hours, above 0
	Min   float64 // γ in hours, 0 or more
}

// RateByYear is a bathtub given year by year: AFR[i] holds in the year of age
// that ends at i+1 years, the last one from there on.
type RateByYear struct {
	AFR []float64 // failures per drive-year, each 0 or more, at least one
}

// FieldRecord is a fleet's record. The rate behind it is uncertain: it is
// Gamma(Failures + ½, DriveDays), the posterior of the Jeffreys prior.
type FieldRecord struct {
	Failures  float64 // 0 or more
	DriveDays float64 // above 0
}

// FittedWeibull is a Weibull life whose parameters were estimated and are
// uncertain: log Shape and log Scale are jointly normal about the values given.
type FittedWeibull struct {
	Shape       float64 // β, above 0
	Scale       float64 // η in hours, above 0
	ShapeError  float64 // standard error of log Shape, that is relative, 0 or more
	ScaleError  float64 // the same of log Scale
	Correlation float64 // of the two, above −1 and below 1
}

func (ConstantRate) life()  {}
func (WeibullLife) life()   {}
func (RateByYear) life()    {}
func (FieldRecord) life()   {}
func (FittedWeibull) life() {}

// Time is a length of time that may be a matter of chance: one of [Fixed],
// [Exponential], [WeibullTime], [Lognormal] and [OpenHours].
type Time interface{ time() }

// Fixed is a length without chance.
type Fixed struct{ Hours float64 }

// Exponential is a length without memory.
type Exponential struct{ Mean float64 } // hours, above 0

// WeibullTime is Min plus a Weibull length.
type WeibullTime struct {
	Min   float64 // hours, 0 or more
	Scale float64 // hours, above 0
	Shape float64 // above 0
}

// Lognormal is a length whose logarithm is normal: half are shorter than
// Median and nine in ten shorter than P90.
type Lognormal struct {
	Median float64 // hours, above 0
	P90    float64 // hours, above Median
}

// OpenHours ends when Within hours have passed that lie in the open spans of
// the week. Holidays are not known to it.
type OpenHours struct {
	Within float64 // open hours, 0 or more
	Week   unit.Week
}

func (Fixed) time()       {}
func (Exponential) time() {}
func (WeibullTime) time() {}
func (Lognormal) time()   {}
func (OpenHours) time()   {}

// Stretched is a length of time whose every length is so many times as long; by
// is above 0. The shape of its law stays.
func Stretched(t Time, by float64) Time {
	switch t := t.(type) {
	case Fixed:
		return Fixed{t.Hours * by}
	case Exponential:
		return Exponential{t.Mean * by}
	case WeibullTime:
		return WeibullTime{Min: t.Min * by, Scale: t.Scale * by, Shape: t.Shape}
	case Lognormal:
		return Lognormal{Median: t.Median * by, P90: t.P90 * by}
	case OpenHours:
		return OpenHours{Within: t.Within * by, Week: t.Week}
	}
	return t
}
