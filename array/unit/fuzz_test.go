package unit

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// FuzzUnit: whatever is written, the answer is an error or a finite number of 0
// or more, and open hours are in order and without overlap.
func FuzzUnit(f *testing.F) {
	for _, s := range []string{
		"12 TB", "12TiB", "210 MB/s", "6 Mbit/s", "6 Mbps", "48 h", "5 y", "1.5 %", "0.015", "7 W",
		"1 in 1e15 bits", "1 in 10^15 bits", "Mon-Fri 08:00-17:00", "Sat-Mon 22:00-06:00, 12:00-13:00",
		"1 000 000 h", "1e308 PB", "-1 h", "NaN", "0x1p-2 TB", "1,5 %", "\u00a0", "/", "1 /s",
	} {
		f.Add(s)
	}
	f.Fuzz(func(t *testing.T, s string) {
		for name, parse := range parsers {
			v, err := parse(s)
			if err == nil && (math.IsNaN(v) || math.IsInf(v, 0) || v < 0) {
				t.Errorf("%s %q is %v", name, s, v)
			}
		}
		w, err := ParseWeek(s)
		if err != nil {
			return
		}
		if len(w) == 0 {
			t.Errorf("%q is open at no time", s)
		}
		at := -1.
		for _, span := range w {
			if span.From <= at || span.From >= span.To || span.To > 168 {
				t.Errorf("%q is %v", s, w)
			}
			at = span.To
		}
	})
}

// TestPlainNumbersAreNoOthers: what the quick way reads of a text, the other reads too.
func TestPlainNumbersAreNoOthers(t *testing.T) {
	t.Parallel()
	quick := 0
	rapid.Check(t, func(t *rapid.T) {
		text := rapid.OneOf(rapid.StringMatching(`[0-9]{1,4}(\.[0-9]{0,3})?[ _,.]{0,2}[0-9a-zA-Z%/+ -]{0,5}`), rapid.StringMatching(`0{0,2}\.?0{0,400}1? ?(TB|h|e1|x|nan)`), rapid.String()).Draw(t, "text")
		v, rest, ok := splitPlain(text)
		if !ok {
			return
		}
		quick++
		if w, other, err := splitAny(text, ""); err != nil || w != v || other != rest {
			t.Fatalf("%q is %v, %q, and should be %v, %q: %v", text, v, rest, w, other, err)
		}
	})
	if quick == 0 {
		t.Error("none is read so")
	}
}
