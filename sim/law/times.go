package law

import "arrayodds/array/elementary"

// Times returns a life with its hazard multiplied at every age by a number above 0;
// false where it is of a kind that cannot be.
func Times(l Life, by float64) (Life, bool) {
	switch l := l.(type) {
	case Constant:
		return Constant{l.PerHour * by}, true
	case Weibull:
		return Weibull{Shape: l.Shape, Scale: l.Scale * elementary.Pow(by, -1/l.Shape), Min: l.Min}, true
	case Steps:
		rate := make([]float64, len(l.rate))
		for i := range rate {
			rate[i] = l.rate[i] * by
		}
		return NewSteps(rate, l.width), true
	}
	return nil, false
}
