package unit

import (
	"math"
	"strings"
	"testing"
)

// Arithmetic: what 1 in N is as a share.
func TestOdds(t *testing.T) {
	t.Parallel()
	for text, want := range map[string]float64{
		"1 in 10 000": 1e-4, "1 in 10000": 1e-4, "1 per 1e6": 1e-6, "1 IN 2 million": 5e-7, "1 in 3 billion": 1 / 3e9,
		"0.01 %": 1e-4, "0.0001": 1e-4, "1e-9": 1e-9, "1 in 2 thousand": 5e-4, "1 in 1.5": 1 / 1.5,
	} {
		if got, err := Odds(text); err != nil || math.Abs(got-want) > 1e-15*want {
			t.Errorf("%q is %g, %v; want %g", text, got, err, want)
		}
	}
	for text, why := range map[string]string{
		"": "nothing", "1 in 0": "1 in 0", "1 in 1": "no chance between", "2": "no chance between", "0 %": "no chance between", "1 in": "with the unit",
		"1 in 5 gross": "behind the number", "-0.1": "below zero", "1 in -5": "below zero", "100 %": "no chance between",
	} {
		if got, err := Odds(text); err == nil || !strings.Contains(err.Error(), why) || !strings.Contains(err.Error(), "right would be") {
			t.Errorf("%q is %g, %v; want an error with %q", text, got, err, why)
		}
	}
}
