package figure_test

import (
	"math"
	"testing"

	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

func TestBounded(t *testing.T) {
	for _, c := range []struct {
		e               estimate.Estimate
		value, interval string
	}{
		{estimate.Estimate{Value: 1.7208, Low: 0.9056, High: 2.8857}, "1.7", "0.90 to 2.89"},
		{estimate.Estimate{Value: 98.1, Low: 28.85, High: math.Inf(1)}, "100", "28 and more"},
		{estimate.Estimate{Value: 606.5, Low: 0, High: math.Inf(1)}, "600", "not bounded"},
		{estimate.Estimate{Value: 54202, Low: 21022, High: 2863085978}, "50 000", "21 000 to 2.9 × 10⁹"},
	} {
		value, interval := figure.Bounded(c.e)
		if plain(value) != c.value || plain(interval) != c.interval {
			t.Errorf("%+v: %q, %q, want %q, %q", c.e, plain(value), plain(interval), c.value, c.interval)
		}
	}
}

func TestSignificance(t *testing.T) {
	for p, want := range map[float64]string{0: "< 10⁻⁶", 0.0918: "0.092", 1.4e-5: "1.4 × 10⁻⁵", 1: "1.0"} {
		if got := plain(figure.Significance(p)); got != want {
			t.Errorf("p of %v is written %q, want %q", p, got, want)
		}
	}
}
