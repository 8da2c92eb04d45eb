package unit

import "strings"

var powers = kind{
	units: map[string]float64{"W": 1, "kW": 1e3},
	fold: func(written string) (string, bool) {
		switch strings.ToLower(written) {
		case "w", "watt", "watts":
			return "W", true
		case "kw":
			return "kW", true
		}
		return "", false
	},
	right:   "W or kW",
	example: "7 W",
	near: func(value float64, written string) string {
		if written == "" {
			return suggest(value, "W")
		}
		return ""
	},
}

// Watts reads a power: "7 W", "0.5 kW". The result is in watts, 0 or more.
func Watts(text string) (float64, error) { return powers.parse(text) }
