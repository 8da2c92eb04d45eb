package axis

import (
	"math"
	"strconv"

	"arrayodds/array/elementary"

	"gonum.org/v1/gonum/stat/distuv"
)

// At returns the value of the input at quantile u of its law, 0 < u < 1: of a record the
// Gamma law of its rate, of a parameter that was fitted a normal law of its logarithm,
// and else a triangular law between the low and the high with its peak at the likely
// value, of logarithms where all three are above 0. Of what is no number the likely is
// taken half of the time and each end a quarter.
func (in Input) At(u float64) Value {
	switch {
	case !in.Axis.Numeric && u < 0.25:
		return in.Low
	case !in.Axis.Numeric && u < 0.75:
		return in.Likely
	case !in.Axis.Numeric:
		return in.High
	case in.law != nil:
		return in.beyond(in.law.Quantile(u))
	}
	low, likely, high := in.Low.Shown, in.Likely.Shown, in.High.Shown
	if in.ByRatio() {
		low, likely, high = math.Log(low), math.Log(likely), math.Log(high)
	}
	likely = math.Min(math.Max(likely, low), high)
	x := distuv.NewTriangle(low, high, likely, nil).Quantile(u)
	if in.ByRatio() {
		x = elementary.Exp(x)
	}
	return in.Axis.At(x)
}

// ByRatio reports whether the input varies on a scale of ratios: all of it is above 0.
func (in Input) ByRatio() bool { return in.Axis.Numeric && in.Low.Shown > 0 }

// beyond returns a value that may lie outside of the range, as far as the reader admits
// it. It is rounded to the digits on which all processors agree.
func (in Input) beyond(base float64) Value {
	base, err := strconv.ParseFloat(strconv.FormatFloat(base, 'g', 12, 64), 64)
	if err != nil { // cannot be: the text is the formatter's own
		base = in.Likely.base
	}
	base = min(max(base, in.least), in.most)
	s := in.Axis.scale
	return Value{Shown: s.shown(base), Text: s.text(base, fewDigits), base: base, made: true, drawn: true}
}

// Draw returns the settings of all inputs at quantiles of their laws, one for each. Two
// parameters of one fit take the correlation of their errors from there.
func Draw(inputs []Input, u []float64) []Setting {
	all := make([]Setting, len(inputs))
	for i, in := range inputs {
		at := u[i]
		if in.beside > 0 {
			normal := distuv.UnitNormal
			r := in.correlation
			at = normal.CDF(r*normal.Quantile(u[in.beside-1]) + math.Sqrt(1-r*r)*normal.Quantile(at))
			at = min(max(at, 1e-12), 1-1e-12)
		}
		all[i] = in.Axis.Set(in.At(at))
	}
	return all
}
