package trace

import "math"

// Clock tells the days and minutes of a life. Day 1 is the calendar day on which
// service begins.
type Clock struct {
	Phase float64 // hour of the week at time zero, 0 for Monday 00:00
}

// Clock returns the clock of a life.
func (l Life) Clock() Clock { return Clock{l.Phase} }

// Minute returns the whole minutes from 00:00 of day 1 to a time in hours.
func (c Clock) Minute(at float64) int {
	return int(math.Floor((at+math.Mod(c.Phase, 24))*60 + 1e-6))
}

// Day returns the day, from 1, on which a time in hours falls.
func (c Clock) Day(at float64) int { return c.Minute(at)/(24*60) + 1 }
