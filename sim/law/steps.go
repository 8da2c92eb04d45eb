package law

import (
	"math"
	"sort"

	"arrayodds/array"
	"arrayodds/array/elementary"
	"arrayodds/array/unit"
)

func init() {
	addLife(func(of array.RateByYear, scale float64) (Life, float64) {
		perHour := make([]float64, len(of.AFR))
		for i, afr := range of.AFR {
			perHour[i] = afr / unit.HoursPerYear * scale
		}
		return NewSteps(perHour, unit.HoursPerYear), 0
	})
}

// Steps is a life whose hazard is constant in each year of age: a bathtub read
// off a table. Make it with [NewSteps].
type Steps struct {
	width float64   // hours
	rate  []float64 // per hour, in step i; the last one holds on
	cum   []float64 // cumulative hazard at the start of step i
}

// NewSteps has rate[i] failures per drive-hour in the (i+1)st width hours of
// age; the last rate, and there must be one, holds from there on.
func NewSteps(rate []float64, width float64) Steps {
	s := Steps{width: width, rate: rate, cum: make([]float64, len(rate))}
	for i := 1; i < len(rate); i++ {
		s.cum[i] = s.cum[i-1] + rate[i-1]*width
	}
	return s
}

func (s *Steps) step(age float64) int {
	last := len(s.rate) - 1
	if x := age / s.width; x < float64(last) {
		return int(x)
	}
	return last
}

// Through returns the hazard of a drive of an age in the next d hours.
func (s *Steps) Through(age, d float64) Stretch {
	i := s.step(age)
	rate := s.rate[i]
	if i == len(s.rate)-1 || age+d < float64(i+1)*s.width {
		return Stretch{rate * d, rate, rate}
	}
	return Stretch{s.Over(age, d), rate, s.Rate(age + d)}
}

func (s Steps) Cumulative(age float64) float64 {
	i := s.step(age)
	return s.cum[i] + s.rate[i]*(age-float64(i)*s.width)
}

func (s Steps) Over(age, d float64) float64 {
	i, j := s.step(age), s.step(age+d)
	if i == j {
		return s.rate[i] * d
	}
	// To the end of the first step, the whole steps between, into the last. What
	// lies in the last is d less the way there: age + d has lost the digits of a
	// short d.
	first := float64(i+1)*s.width - age
	last := max(0, d-(float64(j)*s.width-age))
	return s.rate[i]*first + (s.cum[j] - s.cum[i+1]) + s.rate[j]*last
}

func (s Steps) Rate(age float64) float64 { return s.rate[s.step(age)] }

func (s Steps) MaxRate(age, d float64) float64 {
	most := 0.0
	for _, r := range s.rate[s.step(age) : s.step(age+d)+1] {
		most = max(most, r)
	}
	return most
}

func (s Steps) Age(h float64) float64 {
	// The last step that starts below h is the one in which h is reached.
	i := sort.Search(len(s.cum), func(i int) bool { return s.cum[i] >= h }) - 1
	if i < 0 {
		return 0
	}
	return float64(i)*s.width + (h-s.cum[i])/s.rate[i]
}

// Mean integrates exp(−H) step by step.
func (s Steps) Mean() float64 {
	sum := 0.0
	for i, r := range s.rate {
		alive := elementary.Exp(-s.cum[i])
		switch {
		case i == len(s.rate)-1:
			sum += alive / r
		case r == 0:
			sum += alive * s.width
		default:
			sum += alive * -math.Expm1(-r*s.width) / r
		}
	}
	return sum
}

// Constant returns the one rate of a life whose steps are all alike.
func (s Steps) Constant() (Constant, bool) {
	for _, r := range s.rate {
		if r != s.rate[0] {
			return Constant{}, false
		}
	}
	return Constant{s.rate[0]}, true
}
