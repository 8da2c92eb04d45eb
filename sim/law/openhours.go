package law

import (
	"math"
	"slices"

	"arrayodds/array/unit"
)

// WeekHours is the length of a week.
const WeekHours = 168

// grain, in hours, is below what anybody means by a time and above what sums of
// hours lose by rounding. Without it a wait of just one working day that is
// rounded up would end on the next one.
const grain = 1e-9

// OpenHours ends when Within hours have passed that lie in the open spans of
// the week. It does not depend on chance but on when it begins.
type OpenHours struct {
	Within float64 // open hours, 0 or more
	Week   unit.Week
}

// From returns the length, in hours by the clock, of one that begins at an hour of
// the week in [0, 168).
func (o OpenHours) From(hour float64) float64 {
	left := o.Within
	if left <= 0 {
		return 0
	}
	open := o.Week.Open()
	if !(open > 0) {
		panic("law: a week without open hours") // the reader of the site file refuses it
	}
	// Whole weeks first, but less than all: the last hour is found span by span,
	// since a whole number of weeks ends at the closing hour before.
	weeks := max(0, math.Ceil(left/open-grain)-1)
	left -= weeks * open
	length := weeks * WeekHours
	for base := -hour; ; base += WeekHours {
		for _, s := range o.Week {
			from, to := max(0, base+s.From), base+s.To
			if to <= from {
				continue
			}
			if left <= to-from+grain {
				return length + from + left
			}
			left -= to - from
		}
	}
}

// Mean returns the mean length over a random hour of the week.
func (o OpenHours) Mean() float64 {
	// Between the hours at which a span begins or ends, and those from which one ends with
	// a span, the length goes evenly with the hour at which it begins.
	turns := []float64{0, WeekHours}
	for i, s := range o.Week {
		turns = append(turns, s.From, s.To, o.before(i))
	}
	slices.Sort(turns)
	sum := 0.0
	for i, to := range turns[1:] {
		if from := turns[i]; to > from {
			sum += (to - from) * o.From((from+to)/2)
		}
	}
	return sum / WeekHours
}

// before returns the last hour of the week from which it ends with a span of that place.
func (o OpenHours) before(span int) float64 {
	left := math.Mod(o.Within, o.Week.Open())
	for i, base := span, 0.0; ; i-- {
		if i < 0 {
			i, base = len(o.Week)-1, base-WeekHours
		}
		s := o.Week[i]
		if left <= s.To-s.From {
			return math.Mod(base+s.To-left+WeekHours, WeekHours)
		}
		left -= s.To - s.From
	}
}
