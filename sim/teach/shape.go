package teach

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/array/elementary"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// whatBecomes ends a question.
const whatBecomes = "What becomes of the chance of losing footage?"

// groupsOf returns the groups that a choice divides its drives into, 1 or more.
func groupsOf(c array.Choice) int { return max(1, c.Groups) }

// baysOf returns the bays that a choice takes.
func baysOf(c array.Choice) int { return c.Drives + c.HotSpares }

// drivesOf returns "12 drives in 2 groups".
func drivesOf(c array.Choice) string { return figure.Drives(c.Drives, groupsOf(c)) }

// layoutOf returns "RAID 60, 12 drives in 2 groups".
func layoutOf(c array.Choice) string { return fmt.Sprintf("%s, %s", c.Layout, drivesOf(c)) }

// reshaped returns a sentence, after a blank, on the drives, groups and bays that one
// choice takes in place of another; empty where they are as many. Where the recorder
// has fewer bays it says so too.
func reshaped(before, after array.Choice) string {
	from, to := groupsOf(before), groupsOf(after)
	if before.Drives == after.Drives && from == to && baysOf(before) == baysOf(after) {
		return ""
	}
	if from == 1 && to == 1 {
		text := fmt.Sprintf(" It takes %s and %s where %d and %d were.", figure.Count(after.Drives, "drive", "drives"), figure.Count(baysOf(after), "bay", "bays"), before.Drives, baysOf(before))
		return text + beyondBays(after)
	}
	text := fmt.Sprintf(" It takes %s in %s and %s where %d in %d and %s were.",
		figure.Count(after.Drives, "drive", "drives"), figure.Count(to, "group", "groups"), figure.Count(baysOf(after), "bay", "bays"),
		before.Drives, from, figure.Count(baysOf(before), "bay", "bays"))
	return text + beyondBays(after)
}

// beyondBays says, after a blank, that the recorder has fewer bays than a choice takes;
// empty where it has as many.
func beyondBays(c array.Choice) string {
	if r := c.Recorder; r != nil && r.Bays > 0 && baysOf(c) > r.Bays {
		return fmt.Sprintf(" The recorder has %s: it would have to be another one.", figure.Count(r.Bays, "bay", "bays"))
	}
	return ""
}

// apart returns one estimate ÷ another, with the interval of two runs of their own: the
// relative error of a ratio is, to first order, the root of the sum of both squares.
func apart(x, y estimate.Estimate) estimate.Estimate {
	switch {
	case !x.Known() || !(y.Value > 0):
		return estimate.None()
	case x == y:
		return estimate.Exact(1)
	case !(x.Value > 0):
		return estimate.Estimate{High: math.Inf(1), RelativeError: 1}
	}
	value, se := x.Value/y.Value, math.Hypot(x.RelativeError, y.RelativeError)
	f := elementary.Exp(estimate.Z95 * se)
	return estimate.Estimate{Value: value, Low: value / f, High: value * f, RelativeError: se}
}
