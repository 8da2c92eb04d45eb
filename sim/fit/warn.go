package fit

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// fewAtRisk is the number of drives below which a step of the curve is as good
// as one drive's fate.
const fewAtRisk = 5

// longLook is how old drives must have been seen, in years, for the law not to
// be stretched far beyond the record: common practice, no source.
const longLook = 5

// warn fills in what a reader must know before the law is used.
func (r *Result) warn(f array.Fleet) {
	say := func(format string, a ...any) { r.Warnings = append(r.Warnings, fmt.Sprintf(format, a...)) }
	r.Warnings = append(r.Warnings, f.Notes...)
	switch {
	case r.Failures == 0:
		say("No failure was seen: the record gives an upper limit of the rate and nothing of the course of it.")
	case r.Failures < enoughFailures:
		say("Fewer than %d failures: the record is too thin to tell whether the rate changes with age.", enoughFailures)
	}
	r.warnOfLaw(say)
	if f.Drives == nil {
		r.warnOfSums(f.Sums, say)
	} else {
		r.warnOfAges(say)
	}
	if r.Life == nil {
		say("The rate is above %d %% a year, or rests on less than a drive-day: no site file takes such a life.", 100*mostAFR)
	}
}

func (r *Result) warnOfLaw(say func(string, ...any)) {
	w := r.Weibull
	if w == nil {
		if r.Drives != nil && r.Failures > 0 {
			say("No Weibull law fits best: the failures lie at one age, or all at the end of what was watched.")
		}
		return
	}
	if *r.LikelihoodRatioP >= decisive && r.Failures >= enoughFailures {
		say("The record does not tell a Weibull law from a constant rate (p = %.2g).", *r.LikelihoodRatioP)
	}
	if !w.bounded() {
		say("The record does not bound the Weibull law: an end of its interval is missing.")
	}
	if _, constant := r.Life.(array.FieldRecord); constant && r.decided() {
		say("The Weibull law is outside of what a site file takes (shape %g to %g).", float64(leastLifeShape), float64(mostLifeShape))
	}
}

func (r *Result) warnOfSums(sums []array.Counted, say func(string, ...any)) {
	if r.ByYear != nil {
		return
	}
	for _, c := range sums {
		if c.To > 0 {
			say("An age band is wider than a year of age, or has no ages: there is no rate by year of age.")
			return
		}
	}
}

func (r *Result) warnOfAges(say func(string, ...any)) {
	if len(r.ByYear) == 1 {
		say("All of it was seen in one year of age (year %d): the record says nothing of others.", r.ByYear[0].Year)
	} else if years := r.Oldest / unit.HoursPerYear; years < longLook {
		say("No drive was seen beyond an age of %.1f years: what a law says of later ages is a guess.", math.Ceil(10*years)/10)
	}
	for i, s := range r.Survival {
		if s.AtRisk < fewAtRisk && i > 0 && s.Value < r.Survival[i-1].Value {
			say("The curve has steps with fewer than %d drives watched, the first at %.0f h: read its interval.", fewAtRisk, s.Hours)
			return
		}
	}
}
