package evidence

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/elementary"
	"arrayodds/array/unit"

	"gonum.org/v1/gonum/stat/distuv"
)

// Rate is what is known of the failure rate of a drive: at every age times that of its law
// where it ages, else per year.
type Rate struct{ Low, Mean, High float64 }

// Rates returns the rate of the drives of a log without it and with it, with their 95 %
// intervals. Of a fit with errors that is a log-normal law, which its Gamma law stands for
// ([Refit]): the quantiles of a Gamma law that is as wide would reach down to nothing.
func Rates(l *array.Log) (before, after Rate) {
	at := 1.0 // a multiplier of 1
	if rate := yearly(l.Stated); rate > 0 {
		at = rate * l.Multiplier
	}
	_, fit := l.Stated.(array.FittedWeibull)
	of := func(g array.Gamma) Rate {
		if fit {
			times := elementary.Exp(distuv.UnitNormal.Quantile(0.975) * math.Sqrt(math.Log1p(1/g.Shape)))
			return Rate{at * g.Mean() / times, at * g.Mean(), at * g.Mean() * times}
		}
		law := distuv.Gamma{Alpha: g.Shape, Beta: g.Rate}
		return Rate{at * law.Quantile(0.025), at * g.Mean(), at * law.Quantile(0.975)}
	}
	return of(l.Before), of(l.After)
}

// yearly returns the failures of a drive-year by a law that does not age; 0 for others.
func yearly(l array.Life) float64 {
	if l.About().Ages {
		return 0
	}
	return l.Expected(0, unit.HoursPerYear)
}

// words returns the rate in words: "1.9 % a year (95 %: 0.9 % to 3.3 %)".
func (r Rate) words(of array.Life) string {
	if of.About().Ages {
		at := "at every age"
		if _, fit := of.(array.FittedWeibull); fit { // of which the log may change the shape
			at = "at the ages of the log"
		}
		return fmt.Sprintf("%s times that of the law "+at+" (95 %%: %s to %s)", unit.Digits(r.Mean, 3), unit.Digits(r.Low, 2), unit.Digits(r.High, 2))
	}
	return fmt.Sprintf("%s a year (95 %%: %s to %s)", unit.FormatPercent(r.Mean, 3), unit.FormatPercent(r.Low, 2), unit.FormatPercent(r.High, 2))
}

// Words says what a log made of the failure rate of a drive: a sentence without its
// beginning and its end.
func Words(l *array.Log) string {
	before, after := Rates(l)
	return fmt.Sprintf("that of its law updated by %s at this site: %s; without them %s, by %s",
		Told(l.Failures, l.DriveDays), after.words(l.Stated), before.words(l.Stated), l.Ground)
}
