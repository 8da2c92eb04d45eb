package estimate

import "math"

// Estimate is a figure with its 95 % interval. A closed form has Low = Value =
// High and a RelativeError of 0.
type Estimate struct {
	Value, Low, High float64
	// RelativeError is the standard error ÷ the value. Where the value is 0 only
	// because nothing was seen, it is 1, and High is what can still be.
	RelativeError float64
}

// Z95 is how many standard errors a 95 % interval reaches to each side: the 97.5 %
// point of the standard normal law.
const Z95 = 1.959963984540054

// Exact returns the estimate of a figure that chance has no part in.
func Exact(x float64) Estimate { return Estimate{Value: x, Low: x, High: x} }

// None returns no estimate: all four numbers are NaN.
func None() Estimate {
	nan := math.NaN()
	return Estimate{nan, nan, nan, nan}
}

// sumRounding is the relative difference that rounding may leave between two ways
// to work out one figure: the exact chain has some twelve right digits, and a sum
// of ten million trials, each rounded to sixteen, some nine at the worst.
const sumRounding = 1e-9

// Holds reports whether x lies in the interval, or beside it by no more than what
// rounding does. A closed form, whose interval is a point, holds its own value
// however that was worked out.
func (e Estimate) Holds(x float64) bool {
	return x >= e.Low-sumRounding*math.Abs(e.Low) && x <= e.High+sumRounding*math.Abs(e.High)
}

// Known reports whether there is an estimate at all.
func (e Estimate) Known() bool { return !math.IsNaN(e.Value) }

// FromInterval returns the estimate with these ends of its 95 % interval, and the
// relative error of a normal law that has an interval of that width.
func FromInterval(value, low, high float64) Estimate {
	e := Estimate{Value: value, Low: low, High: high}
	if value > 0 {
		e.RelativeError = (high - low) / (2 * Z95 * value)
	}
	return e
}

// Times returns the estimate times a number that is 0 or more.
func (e Estimate) Times(by float64) Estimate {
	e.Value *= by
	e.Low *= by
	e.High *= by
	return e
}

// Plus returns the estimate plus a number that chance has no part in.
func (e Estimate) Plus(x float64) Estimate {
	sum := Estimate{Value: e.Value + x, Low: e.Low + x, High: e.High + x}
	if sum.Value > 0 {
		sum.RelativeError = e.RelativeError * e.Value / sum.Value
	}
	return sum
}

// AtMostOne returns the estimate with value and ends brought down to 1, for chances,
// of which a mean over weighted trials may be above 1.
func (e Estimate) AtMostOne() Estimate {
	e.Value, e.Low, e.High = math.Min(1, e.Value), math.Min(1, e.Low), math.Min(1, e.High)
	return e
}
