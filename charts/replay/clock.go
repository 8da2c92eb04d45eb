package replay

import (
	"fmt"
	"math"
	"strconv"

	"arrayodds/array/unit"
	"arrayodds/sim/figure"
	"arrayodds/sim/trace"
)

// clock writes the times of a life in words.
type clock struct{ trace.Clock }

var weekdays = [...]string{"Monday", "Tuesday", "Wednesday", "Thursday", "Friday", "Saturday", "Sunday"}

// stamp returns "day 812 (Tuesday), 03:10".
func (c clock) stamp(at float64) string {
	m := c.Minute(at)
	weekday := weekdays[(c.Day(at)-1+int(c.Phase/24))%7]
	return fmt.Sprintf("day %s (%s), %02d:%02d", figure.Whole(float64(c.Day(at))), weekday, m/60%24, m%60)
}

// short returns "day 812, 03:10".
func (c clock) short(at float64) string {
	m := c.Minute(at)
	return fmt.Sprintf("day %s, %02d:%02d", figure.Whole(float64(c.Day(at))), m/60%24, m%60)
}

// lasting writes a length of time as one would say it: "40 minutes", "6.2 hours",
// "31 hours", "3.4 days", "62 days".
func lasting(hours float64) string {
	if hours < 1./60 {
		return "less than a minute"
	}
	return roundly(unit.Scale(hours, lengths))
}

var lengths = []unit.Step{
	{Least: 48, Factor: 24, Name: "day", Round: rough},
	{Least: 1, Factor: 1, Name: "hour", Round: rough},
	{Factor: 1. / 60, Name: "minute", Round: math.Round},
}

// rough rounds a count to a tenth below 10, and else to a whole number.
func rough(n float64) float64 {
	if n >= 9.95 {
		return math.Round(n)
	}
	return math.Round(n*10) / 10
}

// roundly writes n units, with one decimal below 10.
func roundly(n float64, unit string) string {
	n = rough(n)
	text := strconv.FormatFloat(n, 'f', -1, 64)
	if n >= 10 {
		text = figure.Whole(n)
	}
	return figure.Plural(text, unit, unit+"s")
}

// daysLost writes days of footage to a tenth, as the drawing has them.
func daysLost(d float64) string {
	return figure.Plural(strconv.FormatFloat(math.Round(d*10)/10, 'f', -1, 64), "day", "days")
}

// cameraDays writes camera-hours in days of one camera.
func cameraDays(hours float64) string { return roundly(hours/24, "camera-day") }

// cameraSeconds writes camera-hours as footage of one camera, of seconds to
// minutes.
func cameraSeconds(hours float64) string {
	if hours*3600 < 0.05 {
		return "less than a tenth of a second of one camera"
	}
	return roundly(unit.Scale(hours*3600, footages)) + " of one camera"
}

var footages = []unit.Step{ // in seconds
	{Least: 120, Factor: 60, Name: "minute", Round: rough},
	{Factor: 1, Name: "second", Round: rough},
}
