package unit

import "strings"

// HoursPerYear is the year of the open field datasets: 365 days.
const HoursPerYear = 8760

var timeUnits = map[string]float64{
	"s": 1. / 3600, "min": 1. / 60, "h": 1, "d": 24, "w": 168, "y": HoursPerYear,
}

var timeWords = map[string]string{
	"sec": "s", "second": "s", "seconds": "s",
	"mins": "min", "minute": "min", "minutes": "min",
	"hr": "h", "hrs": "h", "hour": "h", "hours": "h",
	"day": "d", "days": "d",
	"wk": "w", "week": "w", "weeks": "w",
	"yr": "y", "yrs": "y", "year": "y", "years": "y",
}

var times = kind{
	units: timeUnits,
	fold: func(written string) (string, bool) {
		s := strings.ToLower(written)
		if short, ok := timeWords[s]; ok {
			return short, true
		}
		return s, true
	},
	right:   "s, min, h, d, w or y (a year is 8760 h)",
	example: "48 h",
	near: func(value float64, written string) string {
		switch strings.ToLower(written) {
		case "m":
			return suggest(value, "min")
		case "month", "months", "mo":
			return suggest(value*30, "d")
		case "a":
			return suggest(value, "y")
		case "":
			return suggest(value, "h")
		}
		return ""
	},
}

// Hours reads a length of time: "30 min", "48 h", "30 d", "2 w", "5 y". The
// result is in hours, 0 or more; a day has 24 and a year 8760. A single "m" is
// an error, since it could be a month, and so is a month, since they differ.
func Hours(text string) (float64, error) { return times.parse(text) }
