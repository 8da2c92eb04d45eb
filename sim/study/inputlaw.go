package study

import (
	"math"

	"arrayodds/array/site/axis"
)

// lawsNote says how the inputs are taken to vary, for the notes of a ranking.
const lawsNote = "For the shares all inputs move at once, independently of each other, each by a triangular law between its low and its high with the peak at its likely value, on a scale of ratios where all three are above 0; what a record or a fit leaves open by the law of that."

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
	case in.ByRatio():
		return math.Log(v.Shown)
	}
	return v.Shown
}
