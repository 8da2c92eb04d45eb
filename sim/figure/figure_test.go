package figure_test

import (
	"math"
	"strconv"
	"strings"
	"testing"

	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"

	"pgregory.net/rapid"
)

func within(value, half float64) estimate.Estimate {
	return estimate.Estimate{Value: value, Low: value - half, High: value + half, RelativeError: half / estimate.Z95 / value}
}

func plain(s string) string { return strings.ReplaceAll(s, "\u202f", " ") }

func TestDigitsFollowTheHalfWidth(t *testing.T) {
	for _, c := range []struct {
		value, half      float64
		number, interval string
	}{
		{0.123456, 0.0061, "0.123", "0.1173 to 0.1296"},
		{0.123456, 0.061, "0.12", "0.062 to 0.185"},
		{0.123456, 0.11, "0.1", "0.01 to 0.24"},
		{1234.5678, 62, "1 230", "1 172 to 1 297"},
		{1234.5678, 30, "1 230", "1 204 to 1 265"},
		{1234.5678, 3, "1 235", "±0.3 %"},
		{4.6958e-4, 2.3e-5, "4.7 × 10⁻⁴", "4.46 × 10⁻⁴ to 4.93 × 10⁻⁴"},
		{3, 20, "3", "−17.0 to 23.0"}, // the value's own first digit stays
		{0.9996, 0.03, "1.00", "0.969 to 1.030"},
		{99.97, 4, "100", "95.9 to 104.0"},
		{5.55e-12, 3e-13, "5.6 × 10⁻¹²", "5.25 × 10⁻¹² to 5.85 × 10⁻¹²"},
		{0, 0, "0", "exact"},
		{0.25, 0, "0.25", "exact"},
		{4.6958123e-4, 0, "4.696 × 10⁻⁴", "exact"},
	} {
		e := within(c.value, c.half)
		if got := plain(figure.Number(e)); got != c.number {
			t.Errorf("%v ± %v: number %q, want %q", c.value, c.half, got, c.number)
		}
		if got := plain(figure.Interval(e)); got != c.interval {
			t.Errorf("%v ± %v: interval %q, want %q", c.value, c.half, got, c.interval)
		}
	}
}

func TestFiguresWithoutAnInterval(t *testing.T) {
	for _, c := range []struct {
		x    float64
		want string
	}{
		{65.5512, "65.55"}, {12345678, "12 345 678"}, {0.1, "0.1"}, {0, "0"}, {72, "72"}, {7.2e-7, "7.2 × 10⁻⁷"}, {1200, "1 200"}, {math.NaN(), "not known"},
	} {
		if got := plain(figure.Exact(c.x)); got != c.want {
			t.Errorf("Exact(%v) = %q, want %q", c.x, got, c.want)
		}
	}
	if got := plain(figure.Whole(4720)); got != "4 720" {
		t.Errorf("Whole(4720) = %q", got)
	}
	if got := figure.Whole(math.NaN()); got != "not known" {
		t.Errorf("Whole(NaN) = %q", got)
	}
}

func TestOdds(t *testing.T) {
	for _, c := range []struct {
		e              estimate.Estimate
		odds, interval string
	}{
		{within(4.6958e-4, 2.3e-5), "1 in 2 100", "1 in 2 240 to 1 in 2 030"},
		{within(0.05, 0.002), "1 in 20.0", "1 in 20.84 to 1 in 19.23"},
		{within(0.61, 0.012), "61 in 100", "59.8 in 100 to 62.2 in 100"},
		{within(0.15, 0.0001), "15.0 in 100", "±0.07 %"},
		{within(0.99999, 0.000001), "all but certain", "±0.01 %"},
		{within(2.703e-7, 1.3e-8), "1 in 3.7 million", "1 in 3.89 million to 1 in 3.52 million"},
		{within(1.2961e-10, 6e-12), "1 in 7.7 billion", "1 in 8.09 billion to 1 in 7.37 billion"},
		{within(3.1e-14, 1e-15), "1 in 32 trillion", "1 in 33.4 trillion to 1 in 31.2 trillion"},
		{within(4e-17, 2e-18), "1 in 2.5 × 10¹⁶", "1 in 2.64 × 10¹⁶ to 1 in 2.38 × 10¹⁶"},
		{estimate.Estimate{}, "none", "exact"},
		{estimate.Estimate{High: 3e-4, RelativeError: 1}, "not seen: at most 1 in 3 300", "0 to 1 in 3 300"},
		{estimate.Estimate{Value: 0.001, High: 0.004}, "1 in 1 000", "0 to 1 in 250"},
		{estimate.Estimate{Value: math.NaN()}, "not known", ""},
	} {
		if got := plain(figure.Odds(c.e)); got != c.odds {
			t.Errorf("%+v: odds %q, want %q", c.e, got, c.odds)
		}
		if got := plain(figure.OddsInterval(c.e)); c.interval != "" && got != c.interval {
			t.Errorf("%+v: interval %q, want %q", c.e, got, c.interval)
		}
	}
	if got := plain(figure.Chance(4.6958e-4)); got != "1 in 2 130" {
		t.Errorf("closed form: %q", got)
	}
}

// What is printed may differ from what was computed by less than the interval
// itself, and the printed interval covers the computed one.
func TestRoundingStaysWithinTheInterval(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := math.Pow(10, rapid.Float64Range(-2.9, 8).Draw(t, "exponent"))
		half := value * math.Pow(10, rapid.Float64Range(-2.8, -0.01).Draw(t, "relative"))
		e := within(value, half)
		if got := read(t, figure.Number(e)); math.Abs(got-value) > half*(1+1e-9) {
			t.Errorf("%v ± %v was written %v", value, half, got)
		}
		low, high, ends := strings.Cut(figure.Interval(e), " to ")
		if !ends {
			covers(t, low, value, half)
			return
		}
		if l, h := read(t, low), read(t, high); l > e.Low*(1+1e-8) || h < e.High*(1-1e-8) {
			t.Errorf("%v to %v was written %v to %v", e.Low, e.High, l, h)
		}
	})
}

// Odds are rounded the same way round as the chances behind them.
func TestOddsIntervalCovers(t *testing.T) {
	rapid.Check(t, func(t *rapid.T) {
		value := math.Pow(10, rapid.Float64Range(-5.9, -1.2).Draw(t, "exponent"))
		half := value * math.Pow(10, rapid.Float64Range(-2.5, -0.5).Draw(t, "relative"))
		e := within(value, half)
		low, high, ends := strings.Cut(figure.OddsInterval(e), " to ")
		if !ends {
			covers(t, low, value, half)
			return
		}
		l, h := chance(t, low), chance(t, high)
		if l > e.Low*(1+1e-8) || h < e.High*(1-1e-8) {
			t.Errorf("%v to %v was written %q, %q", e.Low, e.High, low, high)
		}
		if l < e.Low-half || h > e.High+half {
			t.Errorf("%v to %v was widened to %v to %v", e.Low, e.High, l, h)
		}
	})
}

// covers checks that "±0.4 %" of a value is its half-width, or more by less than a digit.
func covers(t *rapid.T, text string, value, half float64) {
	percent, err := strconv.ParseFloat(strings.TrimSuffix(strings.TrimPrefix(text, "±"), " %"), 64)
	if share := percent / 100; err != nil || half > value*share*(1+1e-9) || half < value*share/2 && share > 1e-4 {
		t.Errorf("±%v of %v was written %q", half, value, text)
	}
}

func chance(t *rapid.T, odds string) float64 {
	if percent, ok := strings.CutSuffix(odds, " in 100"); ok {
		return read(t, percent) / 100
	}
	n, million := strings.CutSuffix(strings.TrimPrefix(odds, "1 in "), " million")
	x := read(t, n)
	if million {
		x *= 1e6
	}
	return 1 / x
}

func read(t *rapid.T, s string) float64 {
	mantissa, power, found := strings.Cut(strings.ReplaceAll(s, "\u202f", ""), " × 10")
	x, err := strconv.ParseFloat(mantissa, 64)
	if err != nil {
		t.Fatal(err)
	}
	if found {
		power = strings.NewReplacer("⁻", "-", "⁰", "0", "¹", "1", "²", "2", "³", "3", "⁴", "4", "⁵", "5", "⁶", "6", "⁷", "7", "⁸", "8", "⁹", "9").Replace(power)
		n, err := strconv.Atoi(power)
		if err != nil {
			t.Fatal(err)
		}
		x *= math.Pow(10, float64(n))
	}
	return x
}
