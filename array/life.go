package array

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"arrayodds/array/unit"
)

// A Life is the law by which drives of one model fail. What is computed from it
// stands in package sim/law.
type Life interface {
	// SiteFile returns the law as a site file takes it: `{ afr = "1.5 %" }`.
	SiteFile() string
	// Expected returns the failures to expect of a drive that is watched from an age to
	// another, in hours, and replaced in kind when it fails: the law's cumulative hazard
	// between them, at the mean where its rate is uncertain.
	Expected(from, to float64) float64
	// About returns what is said of laws of this kind.
	About() AboutLife
}

// AboutLife is what is said of a law of life.
type AboutLife struct {
	// Caution is what a reader should know before acting on figures that rest on it.
	Caution string
	// Beyond is what the textbook formula, which knows one certain and constant
	// rate, leaves out of it; empty where that is nothing.
	Beyond string
	// Recorded says that the law comes with the doubt of the record behind it.
	Recorded bool
	// Ages says that the hazard changes with age.
	Ages bool
	// Rate is what a record leaves open of the failure rate; nil: there is none.
	Rate *GammaRate
	// Multiplier is what a site's own log leaves open of a law that ages: the law of
	// what multiplies its hazard at every age; nil: there is none.
	Multiplier *Gamma
	// Errors are of the parameters that a fit leaves open, and Correlation that of the
	// errors of two.
	Errors      []ParameterError
	Correlation float64
}

// GammaRate is the law of an uncertain failure rate per drive-year: a Gamma law.
type GammaRate struct {
	Shape float64 // above 0
	Years float64 // above 0: drive-years, the inverse of the law's scale
}

// ParameterError is how uncertain a parameter of a life law is.
type ParameterError struct {
	Key   string  // of the parameter in a site file's table of the law
	Error float64 // standard error of the parameter's logarithm, 0 or more
}

const (
	recordCaution  = "Rates taken from a record of failures carry the uncertainty of that record into the loss chance; they do not tell whether the drives bought will be like those of the record."
	changesWithAge = "failure rates that change with age"
)

// ConstantRate is a life without memory, given as an annualised failure rate.
type ConstantRate struct {
	// AFR is failures per drive-year of running, above 0. 0.015 is 1.5 %.
	// A year is 8 760 h, so the mean time between failures is 8760/AFR hours.
	AFR float64
}

// SiteFile returns the law as a site file takes it.
func (l ConstantRate) SiteFile() string { return fmt.Sprintf("{ afr = %q }", percent(l.AFR, 12)) }

// About returns what is said of a rate that is stated.
func (ConstantRate) About() AboutLife {
	return AboutLife{Caution: "Failure rates from a data sheet are often lower than those seen in the field. Where a rate is uncertain, try it twice as high and see whether the order of the choices holds."}
}

// WeibullLife has the cumulative hazard ((age − Min)/Scale)^Shape beyond Min
// and none before it.
type WeibullLife struct {
	Shape float64 // β, above 0
	Scale float64 // η in hours, above 0
	Min   float64 // γ in hours, 0 or more
}

// SiteFile returns the law as a site file takes it, to more digits than a fit
// supports.
func (l WeibullLife) SiteFile() string {
	min := ""
	if l.Min > 0 {
		min = fmt.Sprintf(`, min = "%s h"`, significant(l.Min, 6))
	}
	return fmt.Sprintf(`{ shape = %s, scale = "%s h"%s }`, significant(l.Shape, 5), significant(l.Scale, 6), min)
}

// About returns what is said of a Weibull law that is stated.
func (WeibullLife) About() AboutLife {
	return AboutLife{
		Caution: "A Weibull law that is given without its errors is taken for certain, and so is how the failure rate changes with age by it. Try it with half the scale, and with a lower and a higher shape, and see whether the order of the choices holds.",
		Beyond:  changesWithAge,
		Ages:    true,
	}
}

// RateByYear is a bathtub given year by year: AFR[i] holds in the year of age
// that ends at i+1 years, the last one from there on.
type RateByYear struct {
	AFR []float64 // failures per drive-year, each 0 or more, at least one
}

// SiteFile returns the law as a site file takes it.
func (l RateByYear) SiteFile() string {
	var rates []string
	for _, afr := range l.AFR {
		rates = append(rates, strconv.Quote(percent(afr, 12)))
	}
	return "{ afr_by_year = [" + strings.Join(rates, ", ") + "] }"
}

// About returns what is said of rates by year of age.
func (RateByYear) About() AboutLife {
	return AboutLife{
		Caution: "Failure rates by year of age are taken for certain, and the last of them for all later years, in which drives may well wear out. Try them twice as high, the last above all, and see whether the order of the choices holds.",
		Beyond:  changesWithAge,
		Ages:    true,
	}
}

// FieldRecord is a fleet's record. The rate behind it is uncertain: it is
// Gamma(Failures + ½, DriveDays), the posterior of the Jeffreys prior.
type FieldRecord struct {
	Failures  float64 // 0 or more
	DriveDays float64 // above 0
}

// SiteFile returns the record as a site file takes it, in whole days where there
// are many.
func (l FieldRecord) SiteFile() string {
	days := l.DriveDays
	if days >= 1000 {
		days = math.Round(days)
	}
	return fmt.Sprintf("{ failures = %.0f, drive_days = %s }", l.Failures, significant(days, 12))
}

// About returns what is said of a record.
func (l FieldRecord) About() AboutLife {
	return AboutLife{Caution: recordCaution, Beyond: "how uncertain the rate is", Recorded: true,
		Rate: &GammaRate{Shape: l.Failures + 0.5, Years: l.DriveDays * 24 / unit.HoursPerYear}}
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

// SiteFile returns the law as a site file takes it, its errors to three digits.
func (l FittedWeibull) SiteFile() string {
	return fmt.Sprintf(`{ shape = %s, scale = "%s h", shape_error = %q, scale_error = %q, correlation = %s }`,
		significant(l.Shape, 5), significant(l.Scale, 6), percent(l.ShapeError, 3), percent(l.ScaleError, 3), significant(l.Correlation, 3))
}

// About returns what is said of a fit.
func (l FittedWeibull) About() AboutLife {
	return AboutLife{Caution: recordCaution, Beyond: changesWithAge, Ages: true, Recorded: true,
		Errors: []ParameterError{{"shape", l.ShapeError}, {"scale", l.ScaleError}}, Correlation: l.Correlation}
}

func percent(share float64, digits int) string { return significant(100*share, digits) + " %" }

// significant returns x in so many digits, without an exponent.
func significant(x float64, digits int) string {
	if x == 0 {
		return "0" // of a zero with a sign too
	}
	rounded, err := strconv.ParseFloat(strconv.FormatFloat(x, 'e', digits-1, 64), 64)
	if err != nil || math.IsInf(rounded, 0) {
		rounded = x
	}
	return strconv.FormatFloat(rounded, 'f', -1, 64)
}
