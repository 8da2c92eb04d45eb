package fit

import (
	"cmp"
	"math"
	"slices"

	"arrayodds/array"
)

// record is the drives of a fleet made ready for sums: sorted, those alike as
// one. Sorting makes the digits independent of the order of the rows.
type record struct {
	lives     []life
	longest   float64 // the greatest age seen, in hours; lives are counted in it
	hours     float64 // watched in all
	failures  float64
	logFailed float64 // sum of log(age/longest) over failures
}

// life is so many drives alike.
type life struct {
	array.Observed
	count               float64
	logHours, logOpened float64 // of the ages as a share of the longest; -Inf for an age of 0
}

// recordOf returns the drives sorted, with their sums.
func recordOf(drives []array.Observed) record {
	sorted := slices.Clone(drives)
	slices.SortFunc(sorted, func(a, b array.Observed) int {
		if c := cmp.Compare(a.Hours, b.Hours); c != 0 {
			return c
		}
		if a.Failed != b.Failed {
			if a.Failed {
				return -1
			}
			return 1
		}
		return cmp.Compare(a.Entered, b.Entered)
	})
	var r record
	if len(sorted) > 0 {
		r.longest = sorted[len(sorted)-1].Hours
	}
	for _, d := range sorted {
		if n := len(r.lives); n > 0 && r.lives[n-1].Observed == d {
			r.lives[n-1].count++
			continue
		}
		r.lives = append(r.lives, life{Observed: d, count: 1,
			logHours: math.Log(d.Hours / r.longest), logOpened: math.Log(d.Entered / r.longest)})
	}
	for _, l := range r.lives {
		r.hours += l.count * (l.Hours - l.Entered)
		if l.Failed {
			r.failures += l.count
			r.logFailed += l.count * l.logHours
		}
	}
	return r
}

// exponential returns the greatest log likelihood of a constant rate.
func exponential(failures, hours float64) float64 {
	if failures == 0 {
		return 0 // of a rate of 0
	}
	return failures*math.Log(failures/hours) - failures
}
