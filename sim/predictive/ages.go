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
// 1, is as far from the middle, and whether it is above it.
func laplace(at []float64) (p float64, late bool) {
	mean := 0.0
	for _, x := range at {
		mean += x / float64(len(at))
	}
	z := (mean - 0.5) * math.Sqrt(12*float64(len(at)))
	return 2 * elementary.NormalCDF(-math.Abs(z)), z > 0
}
