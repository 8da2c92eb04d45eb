package unit

import "strings"

const oddsRight = `"1 in 10 000", "0.01 %" or 0.0001`

// Odds reads a chance as people say it: "1 in 10 000", "1 in 2 million",
// "0.01 %", "0.0001". The result is above 0 and below 1.
func Odds(text string) (float64, error) {
	wrong := func(why string) (float64, error) {
		return 0, &Error{Found: because(text, why), Right: oddsRight}
	}
	chance := 0.0
	if m := oneIn().FindStringSubmatch(squeeze(text)); m != nil {
		value, written, err := split(m[1], "1 in 10 000")
		if err != nil {
			_, why, _ := strings.Cut(err.(*Error).Found, ", ")
			return wrong(why)
		}
		factor, ok := map[string]float64{"": 1, "thousand": 1e3, "million": 1e6, "billion": 1e9}[strings.ToLower(written)]
		if !ok {
			return wrong("with " + Quote(written) + " behind the number")
		}
		if value == 0 {
			return wrong("which is 1 in 0")
		}
		chance = 1 / (value * factor)
	} else {
		var err error
		if chance, err = Share(text); err != nil {
			return 0, &Error{Found: err.(*Error).Found, Right: oddsRight}
		}
	}
	if chance <= 0 || chance >= 1 {
		return wrong("which is no chance between 0 and 1")
	}
	return chance, nil
}
