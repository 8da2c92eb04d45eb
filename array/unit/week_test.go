package unit

import (
	"slices"
	"strings"
	"testing"
)

// open lists spans as pairs of hours since Monday 00:00.
func open(hours ...float64) (w Week) {
	for i := 0; i < len(hours); i += 2 {
		w = append(w, Span{From: hours[i], To: hours[i+1]})
	}
	return w
}

func TestWeek(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		text string
		want Week
		back string
	}{
		{"Mon-Fri 08:00-17:00", open(8, 17, 32, 41, 56, 65, 80, 89, 104, 113), "Mon-Fri 08:00-17:00"},
		{"mon–tue 8:00 - 9:30", open(8, 9.5, 32, 33.5), "Mon-Tue 08:00-09:30"},
		{"Sunday 22:00-06:00", open(0, 6, 166, 168), "Mon 00:00-06:00, Sun 22:00-24:00"},
		{"Sun-Mon 08:00-10:00", open(8, 10, 152, 154), "Mon 08:00-10:00, Sun 08:00-10:00"},
		{"Mon 22:00-06:00", open(22, 30), "Mon 22:00-24:00, Tue 00:00-06:00"},
		{"Mon-Sun 00:00-24:00", open(0, 168), "Mon-Sun 00:00-24:00"},
		{"Mon-Sun 12:20-12:19, Mon-Sun 12:19-12:20", open(0, 168), "Mon-Sun 00:00-24:00"},
		{"Wed 09:00-17:00, Mon 09:00-12:00, Mon 11:00-13:00", open(9, 13, 57, 65), "Mon 09:00-13:00, Wed 09:00-17:00"},
		{"Mon 08:00-12:00, 13:00-17:00", open(8, 12, 13, 17), "Mon 08:00-12:00, Mon 13:00-17:00"},
	} {
		got, err := ParseWeek(c.text)
		if err != nil {
			t.Errorf("%q: %v", c.text, err)
			continue
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%q is %v, want %v", c.text, got, c.want)
		}
		if s := FormatWeek(got); s != c.back {
			t.Errorf("%q is written %q, want %q", c.text, s, c.back)
		}
	}
}

func TestWeekRefuses(t *testing.T) {
	t.Parallel()
	for text, says := range map[string]string{
		"":                             "nothing",
		"24/7":                         `did you mean "Mon-Sun 00:00-24:00"`,
		"08:00-17:00":                  "names no day",
		"Mon-Fri":                      "not a span",
		"Mon-Fri 08-17":                "not a span",
		"Mun-Fri 08:00-17:00":          `"Mun" is not a day`,
		"Mon-Fry 08:00-17:00":          `"Fry" is not a day`,
		"Mon 08:00-08:00":              "no length",
		"Mon 08:60-09:00":              "00:00 to 24:00",
		"Mon 24:00-09:00":              "00:00 to 24:00",
		"Mon 08:00-24:01":              "00:00 to 24:00",
		"Mon 08:00-17:00;Tue 1:00-2:0": "not a span",
		"Mon 08:00-17:00,":             "not a span",
		strings.Repeat("Mon 08:00-09:00,", 101) + "Mon 08:00-09:00": "more than 100 spans",
	} {
		w, err := ParseWeek(text)
		if err == nil {
			t.Errorf("%q was accepted as %v", text, w)
		} else if !strings.Contains(err.Error(), says) {
			t.Errorf("%q says %v, without %s", text, err, says)
		}
	}
}

func TestWeekOpen(t *testing.T) {
	t.Parallel()
	if got := (Week{{From: 8, To: 17}, {From: 32, To: 41}}).Open(); got != 18 {
		t.Errorf("open %v h", got)
	}
}
