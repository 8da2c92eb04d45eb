package fit

import (
	"cmp"
	"math"
	"slices"

	"arrayodds/array/elementary"
	"arrayodds/sim/estimate"
)

// Survived is a step of the Kaplan-Meier curve: the share of drives that live
// beyond that age, of those that lived to the age at which watching began.
type Survived struct {
	Hours            float64
	Value, Low, High float64 // with its 95 % interval
	AtRisk           int     // drives watched at that age, just before it
}

// mostSteps bounds the steps that are kept of a curve. Those left out are spread
// evenly; those kept are as they were.
const mostSteps = 400

// survival returns the curve from the first age watched to the last.
func (r record) survival() []Survived {
	if len(r.lives) == 0 {
		return nil
	}
	type entry struct{ age, count float64 }
	entries := make([]entry, len(r.lives))
	for i, l := range r.lives {
		entries[i] = entry{l.Entered, l.count}
	}
	slices.SortFunc(entries, func(a, b entry) int { return cmp.Compare(a.age, b.age) })

	steps := []Survived{{Hours: entries[0].age, Value: 1, Low: 1, High: 1}}
	share, greenwood := 1.0, 0.0
	entered, left, next := 0.0, 0.0, 0
	for i := 0; i < len(r.lives); {
		age := r.lives[i].Hours
		for next < len(entries) && entries[next].age < age {
			entered += entries[next].count
			next++
		}
		atRisk := entered - left
		failed := 0.0
		for ; i < len(r.lives) && r.lives[i].Hours == age; i++ {
			left += r.lives[i].count
			if r.lives[i].Failed {
				failed += r.lives[i].count
			}
		}
		if failed == 0 {
			continue
		}
		share *= 1 - failed/atRisk
		greenwood += failed / (atRisk * (atRisk - failed))
		s := Survived{Hours: age, Value: share, AtRisk: int(atRisk)}
		s.Low, s.High = logLog(share, greenwood, steps[len(steps)-1].High)
		steps = append(steps, s)
		if share == 0 { // whoever enters later cannot raise it
			break
		}
	}
	if len(steps) == 1 {
		steps[0].AtRisk = int(entries[0].count)
	}
	if last := steps[len(steps)-1]; last.Hours < r.longest {
		last.Hours = r.longest
		last.AtRisk = 0
		for _, l := range r.lives[lowerBound(r.lives, r.longest):] {
			last.AtRisk += int(l.count)
		}
		steps = append(steps, last)
	}
	return thinned(steps)
}

// lowerBound returns the first of the lives that is of that age or older.
func lowerBound(lives []life, age float64) int {
	i, _ := slices.BinarySearchFunc(lives, age, func(l life, age float64) int { return cmp.Compare(l.Hours, age) })
	return i
}

// logLog returns the 95 % interval of a share with that sum of Greenwood's. At 0 the
// formula gives none, and the step before is the best that is known of the high end.
func logLog(share, greenwood, before float64) (low, high float64) {
	if share == 0 {
		return 0, before
	}
	half := estimate.Z95 * math.Sqrt(greenwood) / math.Abs(math.Log(share))
	return elementary.Pow(share, elementary.Exp(half)), elementary.Pow(share, elementary.Exp(-half))
}

// thinned keeps at most mostSteps, the first and the last among them.
func thinned(steps []Survived) []Survived {
	if len(steps) <= mostSteps {
		return steps
	}
	kept := make([]Survived, mostSteps)
	for i := range kept {
		kept[i] = steps[i*(len(steps)-1)/(mostSteps-1)]
	}
	return kept
}
