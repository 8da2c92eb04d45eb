package print

import (
	"math"
	"testing"

	"arrayodds/sim/estimate"
)

func TestOdds(t *testing.T) {
	for _, c := range []struct {
		value, low, high float64
		want             string
	}{
		{4.6958e-4, 4.465e-4, 4.926e-4, "1 in 2 100\n2 240 to 2 030"},
		{2.703e-7, 2.573e-7, 2.833e-7, "1 in 3.7 million\n3.89 to 3.52 million"},
		{4e-17, 3.8e-17, 4.2e-17, "1 in 2.5 × 10¹⁶\n2.64 to 2.38 × 10¹⁶"},
		{0.61, 0.598, 0.622, "61 in 100\n59.8 to 62.2 in 100"},
		{0.1, 0.08, 0.12, "10 in 100\n1 in 12.5 to 12.0 in 100"},
		{1e-6, 0.9e-6, 1.1e-6, "1 in 1.0 million\n1.12 million to 909 000"},
		{0.001, 0, 0.004, "1 in 1 000\n0 to 1 in 250"},
		{0.05, 0.05, 0.05, "1 in 20\nexact"},
		{0, 0, 3e-4, "not seen:\nat most 1 in 3 300"},
		{0, 0, 0, "none"},
		{1, 1, 1, "all but certain\nexact"},
		{0.9999, 0.9998, 1, "all but certain\n±0.02 %"},
	} {
		if got := odds(estimate.Estimate{Value: c.value, Low: c.low, High: c.high}); got != c.want {
			t.Errorf("%v (%v to %v): %q, want %q", c.value, c.low, c.high, got, c.want)
		}
	}
}

func TestSizesAndTimes(t *testing.T) {
	for _, c := range []struct{ got, want string }{
		{terabytes(72e12), "72.0"},
		{terabytes(0.456e12), "0.46"},
		{terabytes(12345e12), "12 345"},
		{terabytes(999.96e12), "1 000"},
		{terabytes(999.94e12), "999.9"},
		{terabytes(0.996e12), "1.0"},
		{days(24 * 29.96), "29.9"}, // not the 30 that were asked for
		{days(24 * 30), "30.0"},
		{days(24 * 23.1), "23.1"},
		{days(math.NaN()), "-"},
		{money(math.NaN()), "-"},
		{money(4720), "4 720"},
		{years(43800), "5 years"},
		{years(8760), "1 year"},
		{years(8760 * 1.5), "1.5 years"},
	} {
		if c.got != c.want {
			t.Errorf("got %q, want %q", c.got, c.want)
		}
	}
}

func TestPlain(t *testing.T) {
	for in, want := range map[string]string{
		"8 x 12 TB":          "8 x 12 TB",
		"a\x1b[31mred":       "a\ufffd[31mred",
		"two\nlines\tand":    "two lines and",
		"turn\u202eround":    "turn\ufffdround",
		"bell\a \x7f \u009b": "bell\ufffd \ufffd \ufffd",
		"Fähre 港":            "Fähre 港",
	} {
		if got := plain(in); got != want {
			t.Errorf("plain(%q) = %q, want %q", in, got, want)
		}
	}
}
