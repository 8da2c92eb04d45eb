package sweep

import (
	"context"
	"errors"
	"math"

	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
)

// Goal is what a choice's loss chance is to meet: one of the two.
type Goal struct {
	Chance float64 // above 0, below 1
	Other  *Point  // the loss chance of another choice, as it stands; nil: Chance
}

// BreakEven is the value of an input at which a choice's loss chance meets a
// goal.
type BreakEven struct {
	// Found reports whether there is one. Value is its estimate, Low and High are
	// the ends of its 95 % interval, which may reach beyond the range that was
	// searched; all are NaN where there is none.
	Found            bool
	Value, Low, High float64

	// Crossings is how often the loss chance certainly crosses the goal within
	// the range, as far as a grid of 11 values shows. Value is the first from the
	// low end.
	Crossings int

	// Slope is what the logarithm of the loss chance, and of the goal where that
	// is another's, gains there for each unit of the logarithm of the input where
	// the range is by ratio, else for each unit of the input. NaN where no value
	// is found.
	Slope estimate.Estimate

	AtLow, AtHigh estimate.Estimate // loss chance at the ends of the range
	AtGoal        estimate.Estimate // loss chance that is to be met; of Other as simulated beside

	// SaferEverywhere and RiskierEverywhere say on which side of the goal the
	// range lies, where no value of the grid is certainly on the other side and
	// neither end seems to be.
	SaferEverywhere, RiskierEverywhere bool

	// Flat reports that the loss chance hardly depends on the input: the simulation
	// finds no slope, or none that is certain, where the goal is met, and so no
	// value can be given.
	Flat bool

	Trials    int // of all values tried, together
	StoppedBy engine.StoppedBy
	Warnings  []string // why the value should not be trusted, a sentence each
}

// FindBreakEven returns the input value x between low and high at which the loss
// chance of at(x) meets the goal. byRatio moves x by ratio: low must then be above
// 0. opt.Accuracy is the wanted 95 % half-width of x ÷ x, opt.MaxTrials the budget
// of each value that is tried. at is called from one goroutine.
//
// Every value is simulated from the same streams, so that the loss chance moves
// with x alone, and f(x), the difference of loss chance and goal, is one function
// for a given number of trials. (The difference is that of log(−log(1 − p)),
// which is log p while p is small and stays straight where it is not.)
//
// A grid of 11 values shows where f changes sign, a safeguarded secant search (the
// Illinois algorithm of M. Dowell and P. Jarratt, BIT 11, 1971) finds the first
// zero, and then a straight line is laid by least squares through five values
// beside it. Value is its zero. The 128 bundles of trials (see the package's doc)
// give the covariance of the line's height and slope, with what the other choice has
// in common with this one, and the interval is that of E. C. Fieller, "Some problems
// in interval estimation", Journal of the Royal Statistical Society B 16, 1954:
// all x at which a line of height 0 is within 95 %. It holds the doubt about the
// slope too, and has no end where the slope may be 0: Flat then. Trials are added
// until the interval is as narrow as was asked for.
//
// The error is that of at, of a point ([engine.BusyError] where none of the grid can
// be simulated), of the context, or of a goal or range that is none.
func FindBreakEven(ctx context.Context, at func(x float64) (Point, error), low, high float64, byRatio bool, goal Goal, opt engine.Options) (BreakEven, error) {
	switch {
	case !(low < high) || math.IsInf(low, 0) || math.IsInf(high, 0):
		return BreakEven{}, errors.New("break-even: the range must go up")
	case byRatio && low <= 0:
		return BreakEven{}, errors.New("break-even: a range by ratio must begin above 0")
	case goal.Other == nil && !(goal.Chance > 0 && goal.Chance < 1):
		return BreakEven{}, errors.New("break-even: the chance to be met must lie between 0 and 1")
	case !(opt.Accuracy > 0):
		return BreakEven{}, errors.New("break-even: the accuracy must be above 0")
	}
	f, err := newFinder(at, low, high, byRatio, goal, opt)
	if err != nil {
		return BreakEven{}, err
	}
	return f.find(ctx)
}
