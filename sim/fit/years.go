package fit

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
)

// Year is what was seen of drives in one year of their age: the first is year 1.
type Year struct {
	Year      int
	DriveDays float64 // above 0
	Failures  float64
	AFR       estimate.Estimate
}

// mostYears bounds the years of age; what is older counts to the last.
const mostYears = 60

// yearTable adds up by year of age.
type yearTable [mostYears]Year

// yearAt returns the place of an age in hours, the end of a year belonging to it.
func yearAt(hours float64) int {
	return min(max(int(math.Ceil(hours/unit.HoursPerYear))-1, 0), mostYears-1)
}

// years returns the years that have drive-days, with their rates.
func (t *yearTable) years() []Year {
	var out []Year
	for i, y := range t {
		if y.DriveDays > 0 {
			y.Year, y.AFR = i+1, Rate(y.Failures, y.DriveDays)
			out = append(out, y)
		}
	}
	return out
}

// byYear returns the failures and drive-days of the drives by year of age.
func (r record) byYear() []Year {
	var t yearTable
	for _, l := range r.lives {
		last := yearAt(l.Hours)
		for y := yearAt(l.Entered); y <= last; y++ {
			from := math.Max(l.Entered, float64(y)*unit.HoursPerYear)
			to := l.Hours
			if y < last {
				to = math.Min(to, float64(y+1)*unit.HoursPerYear)
			}
			t[y].DriveDays += l.count * math.Max(0, to-from) / 24
		}
		if l.Failed {
			t[last].Failures += l.count
		}
	}
	return t.years()
}

// yearsOf returns sums by year of age. It is nil unless every one lies within a
// single year: how those of a wider band divide is not known.
func yearsOf(sums []array.Counted) []Year {
	var t yearTable
	for _, c := range sums {
		y := yearAt(c.To * unit.HoursPerYear)
		if c.To == 0 || c.From < float64(y) {
			return nil
		}
		t[y].DriveDays += c.DriveDays
		t[y].Failures += c.Failures
	}
	return t.years()
}
