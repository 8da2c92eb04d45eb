package array

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/array/unit"
)

// Expected returns the rate times the hours watched.
func (l ConstantRate) Expected(from, to float64) float64 {
	return l.AFR * (to - from) / unit.HoursPerYear
}

// Expected returns the difference of the cumulative hazards.
func (l WeibullLife) Expected(from, to float64) float64 {
	return l.cumulative(to) - l.cumulative(from)
}

func (l WeibullLife) cumulative(age float64) float64 {
	return elementary.Pow(math.Max(0, age-l.Min)/l.Scale, l.Shape)
}

// Expected adds up the years of age.
func (l RateByYear) Expected(from, to float64) float64 {
	sum, last := 0.0, len(l.AFR)-1
	for i, afr := range l.AFR {
		begin, end := float64(i)*unit.HoursPerYear, float64(i+1)*unit.HoursPerYear
		if i == last {
			end = math.Inf(1)
		}
		if hours := math.Min(to, end) - math.Max(from, begin); hours > 0 {
			sum += afr * hours / unit.HoursPerYear
		}
	}
	return sum
}

// Expected returns the mean of the rate's law times the hours watched.
func (l FieldRecord) Expected(from, to float64) float64 {
	return (l.Failures + 0.5) / (l.DriveDays * 24) * (to - from)
}

// Expected returns that of the law at the estimates.
func (l FittedWeibull) Expected(from, to float64) float64 {
	return WeibullLife{Shape: l.Shape, Scale: l.Scale}.Expected(from, to)
}

// Expected returns that of the law before it was updated times the mean multiplier.
func (l UpdatedLife) Expected(from, to float64) float64 {
	return l.Of.Expected(from, to) * l.Multiplier.Mean()
}
