package unit

import "strings"

var masses = kind{
	units: map[string]float64{"g": 1e-3, "kg": 1},
	fold: func(written string) (string, bool) {
		lower := strings.ToLower(written)
		return lower, lower == "kg"
	},
	right:   "g or kg",
	example: "14 kg",
	near: func(value float64, written string) string {
		if written == "" {
			return suggest(value, "kg")
		}
		return ""
	},
}

// Mass reads a weight as people say it: "14 kg", "720 g". The result is in kilograms, 0
// or more.
func Mass(text string) (float64, error) { return masses.parse(text) }
