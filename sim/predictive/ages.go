package predictive

import (
	"cmp"
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/array/elementary"
)

// fewestAges is the failures below which their ages are not looked at: with fewer, the
// normal law does for a mean of uniform numbers no more.
const fewestAges = 4

// rescaled returns where the failures of some fleets lie, from 0 to 1, on the scale on which
// they are spread evenly if they follow the law: the cumulative hazard, by age, of all
// drives that were watched at it.
func rescaled(fleets []array.Fleet, law array.Life) []float64 {
	type event struct {
		age    float64
		risk   int // drives more
		failed bool
	}
	var events []event
	for _, f := range fleets {
		for _, d := range f.Drives {
			events = append(events, event{d.Entered, 1, false}, event{d.Hours, -1, d.Failed})
		}
	}
	slices.SortFunc(events, func(a, b event) int {
		return cmp.Or(cmp.Compare(a.age, b.age), cmp.Compare(b.risk, a.risk))
	})
	var at []float64
	sum, age, risk := 0.0, 0.0, 0
	for _, e := range events {
		if e.age > age {
			if risk > 0 {
				sum += float64(risk) * law.Expected(age, e.age)
			}
			age = e.age
		}
		risk += e.risk
		if e.failed {
			at = append(at, sum)
		}
	}
	if sum == 0 {
		return nil
	}
	for i := range at {
		at[i] /= sum
	}
	return at
}

// laplace returns how rare it is that the mean of so many numbers, spread evenly from 0 to
// 1, is as far from the middle, and whether it is above it. doubt is the variance of that
// mean beside: of where the law, which is not certain, has the failures.
func laplace(at []float64, doubt float64) (p float64, late bool) {
	z := (mean(at) - 0.5) / math.Sqrt(1/(12*float64(len(at)))+doubt)
	return 2 * elementary.NormalCDF(-math.Abs(z)), z > 0
}

// doubtOfAges returns the variance that the errors of a fit leave of where in the mean the
// failures of some fleets lie on its scale; 0 of any other law. That mean is taken as
// linear in the logarithm of the shape over one standard error to each side (the delta
// method); the scale does not move it.
func doubtOfAges(fleets []array.Fleet, law array.Life) float64 {
	fit, ok := law.(array.FittedWeibull)
	if !ok || fit.ShapeError == 0 {
		return 0
	}
	at := func(way float64) float64 {
		return mean(rescaled(fleets, array.WeibullLife{Shape: fit.Shape * elementary.Exp(way*fit.ShapeError), Scale: fit.Scale}))
	}
	half := (at(1) - at(-1)) / 2
	return half * half
}

// mean returns the mean of some numbers; 0 of none.
func mean(all []float64) (mean float64) {
	for _, x := range all {
		mean += x / float64(len(all))
	}
	return mean
}
