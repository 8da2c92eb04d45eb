package unit

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

func TestFormat(t *testing.T) {
	t.Parallel()
	nan := math.NaN()
	for _, c := range []struct{ got, want string }{
		{FormatSize(12e12), "12 TB"},
		{FormatSize(13194139533312), "13.2 TB"},
		{FormatSize(5184e9), "5.18 TB"},
		{FormatSize(0), "0 B"},
		{FormatSize(nan), "unknown"},
		{FormatSize(1234e15), "1 230 PB"},
		{FormatRate(210e6), "210 MB/s"},
		{FormatRate(nan), "unknown"},
		{FormatBitRate(6e6), "6 Mbit/s"},
		{FormatHours(24), "24 h"},
		{FormatHours(72), "72 h"},
		{FormatHours(720), "30 d"},
		{FormatHours(8760), "1 y"},
		{FormatHours(43800), "5 y"},
		{FormatHours(0.5), "30 min"},
		{FormatHours(0.005), "18 s"},
		{FormatHours(0), "0 h"},
		{FormatHours(1e6), "114 y"},
		{FormatHours(1e10), "1 140 000 y"},
		// What rounds to the next unit is shown in it.
		{FormatHours(59.97 / 3600), "1 min"},
		{FormatHours(59.94 / 3600), "59.9 s"},
		{FormatHours(0.9993), "1 h"},
		{FormatHours(0.9990), "59.9 min"},
		{FormatHours(167.4), "167 h"},
		{FormatHours(167.6), "7 d"},
		{FormatHours(24 * 364.4), "364 d"},
		{FormatHours(24 * 364.6), "1 y"},
		{FormatHours(24 * 365.6), "366 d"},
		{FormatHours(24 * 729.6), "2 y"},
		{FormatSize(999.96e9), "1 TB"},
		{FormatSize(999.4e9), "999 GB"},
		{FormatSize(999.7), "1 kB"},
		{FormatSize(999.7e15), "1 000 PB"},
		{FormatRate(999.96e6), "1 GB/s"},
		{FormatBitRate(999.7e3), "1 Mbit/s"},
		{FormatPercent(0.015, 3), "1.5 %"},
		{FormatPercent(0.00876, 2), "0.88 %"},
		{Digits(-12345.678, 3), "-12 300"},
		{Digits(1e-7, 2), "1e-07"},
	} {
		if c.got != c.want {
			t.Errorf("%q, want %q", c.got, c.want)
		}
	}
}

// What is written is read back: exactly where three digits hold it, and else to
// half a unit of the third digit. What is read is written the same again, also
// where it lies so near the next unit that it rounds to it.
func TestWrittenIsReadBack(t *testing.T) {
	t.Parallel()
	for name, c := range map[string]struct {
		format func(float64) string
		parse  func(string) (float64, error)
		units  []float64
	}{
		"size":     {FormatSize, Size, []float64{1, 1e3, 1e6, 1e9, 1e12, 1e15}},
		"rate":     {FormatRate, Rate, []float64{1, 1e3, 1e6, 1e9, 1e12, 1e15}},
		"bit rate": {FormatBitRate, BitRate, []float64{1, 1e3, 1e6, 1e9}},
		"hours":    {FormatHours, Hours, []float64{1. / 3600, 1. / 60, 1, 24, 8760}},
		"percent":  {func(v float64) string { return FormatPercent(v, 3) }, Percent, []float64{0.01}},
	} {
		t.Run(name, func(t *testing.T) {
			rapid.Check(t, func(t *rapid.T) {
				unit := rapid.SampledFrom(c.units).Draw(t, "unit")
				near := rapid.SampledFrom([]float64{1, 7, 60, 168, 365, 730, 1000}).Draw(t, "near")
				count := rapid.OneOf(rapid.Float64Range(1, 999), rapid.Float64Range(0.99*near, 1.01*near)).Draw(t, "count")
				v := count * unit
				back, err := c.parse(c.format(v))
				if err != nil {
					t.Fatalf("%v is written %q: %v", v, c.format(v), err)
				}
				if math.Abs(back-v) > 0.005*v {
					t.Fatalf("%v is written %q and read back as %v", v, c.format(v), back)
				}
				if again := c.format(back); again != c.format(v) {
					t.Fatalf("%q is written %q the second time", c.format(v), again)
				}
			})
		})
	}
}

func TestWeekIsReadBack(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		cuts := rapid.SliceOfNDistinct(rapid.IntRange(0, 7*24*12), 2, 20, rapid.ID[int]).Draw(t, "cuts")
		slices.Sort(cuts)
		var w Week
		for i := 0; i+1 < len(cuts); i += 2 {
			w = append(w, Span{From: float64(cuts[i]) * 5 / 60, To: float64(cuts[i+1]) * 5 / 60})
		}
		back, err := ParseWeek(FormatWeek(w))
		if err != nil {
			t.Fatalf("%q: %v", FormatWeek(w), err)
		}
		if len(back) != len(w) {
			t.Fatalf("%v is written %q and read back as %v", w, FormatWeek(w), back)
		}
		for i := range w {
			if math.Abs(back[i].From-w[i].From) > 1e-9 || math.Abs(back[i].To-w[i].To) > 1e-9 {
				t.Fatalf("%v is read back as %v", w, back)
			}
		}
	})
}
