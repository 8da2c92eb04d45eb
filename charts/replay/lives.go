package replay

import (
	"arrayodds/sim/study"
	"arrayodds/sim/trace"
)

// lives are single lives as their page tells them.
type lives struct{ study.Replay }

// DayOf is the calendar day, from 1, on which a time of a life falls, as the page
// counts days.
func DayOf(l trace.Life, at float64) int { return clock{l.Phase}.day(at) }
