package schedule

import (
	"errors"
	"slices"
	"strings"
	"testing"
	"unicode/utf8"

	"arrayodds/array/hostile"
)

// FuzzCSV: whatever the text, the answer is rows with places, or faults.
func FuzzCSV(f *testing.F) {
	f.Add([]byte(plain))
	f.Add([]byte("label;count;bitrate (Mbit/s)\na;1;6,5\n"))
	f.Add([]byte("label\tcount\n\"a\nb\"\t1.234,5\n\n\nx\t1,500\n"))
	for _, seed := range hostile.Seeds(hostile.Schedules(), ".csv") {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, in []byte) { judge(t, in) })
}

func judge(t *testing.T, in []byte) {
	s, err := Read(in, "s.csv", nil)
	if err == nil {
		if len(s.Rows) == 0 || len(s.Rows) > maxRows {
			t.Fatalf("%d rows", len(s.Rows))
		}
		for _, r := range s.Rows {
			for key, c := range r.Cells {
				if r.Place == "" || c.Place == "" || !slices.ContainsFunc(headings, func(of keyNames) bool { return of.key == key && keyOf()[canonical(of.names[0])] == key }) || c.Number && !plainNumber().MatchString(c.Text) {
					t.Fatalf("%s: %+v in %q", key, c, r.Place)
				}
			}
		}
		return
	}
	var faults Faults
	if !errors.As(err, &faults) || len(faults) == 0 {
		t.Fatalf("%T %v", err, err)
	}
	for _, e := range faults {
		if e.Place == "" || e.Found == "" || e.Right == "" || strings.ContainsAny(e.Error(), "\n\r\x1b\x00") || !utf8.ValidString(e.Error()) {
			t.Fatalf("%+q", e)
		}
	}
}
