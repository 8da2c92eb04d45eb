package study

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/array/site/axis"

	"gonum.org/v1/gonum/stat/distuv"
)

// lawsNote says how the inputs are taken to vary, for the notes of a ranking.
const lawsNote = "For the shares all inputs move at once, independently of each other, each by a triangular law between its low and its high with the peak at its likely value, on a scale of ratios where all three are above 0."

// wordsNote goes with it where some input is no number.
const wordsNote = "Of what is no number the likely is taken half of the time and each end a quarter."

// coordinate returns a value of an input, at quantile u of its law, on the scale on which
// it varies. What is no number is −1, 0 and 1.
func coordinate(in axis.Input, v axis.Value, u float64) float64 {
	switch {
	case !in.Axis.Numeric && u < 0.25:
		return -1
	case !in.Axis.Numeric && u < 0.75:
		return 0
	case !in.Axis.Numeric:
		return 1
	case in.Low.Shown > 0:
		return math.Log(v.Shown)
	}
	return v.Shown
}

// valueAt returns the value of an input at quantile u of its law.
func valueAt(in axis.Input, u float64) axis.Value {
	low, likely, high := in.Low.Shown, in.Likely.Shown, in.High.Shown
	if !in.Axis.Numeric {
		switch {
		case u < 0.25:
			return in.Low
		case u < 0.75:
			return in.Likely
		}
		return in.High
	}
	byRatio := low > 0
	if byRatio {
		low, likely, high = math.Log(low), math.Log(likely), math.Log(high)
	}
	likely = math.Min(math.Max(likely, low), high)
	x := distuv.NewTriangle(low, high, likely, nil).Quantile(u)
	if byRatio {
		x = elementary.Exp(x)
	}
	return in.Axis.At(x)
}
