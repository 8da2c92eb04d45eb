package record

import (
	"reflect"
	"strings"
	"testing"
	"time"

	"arrayodds/array"
)

// read reads a text that is right.
func read(t testing.TB, text string, opt Options) Record {
	t.Helper()
	got, err := Read(t.Context(), strings.NewReader(text), "x.csv", opt)
	if err != nil {
		t.Fatal(err)
	}
	return got
}

func until(day string) Options {
	d, ok := Date(day)
	if !ok {
		panic(day)
	}
	return Options{Until: d}
}

func TestForms(t *testing.T) {
	for _, c := range []struct {
		name, text string
		opt        Options
		form       string
		want       []array.Fleet
	}{
		{"sums by label", "label,drive_days,failures\n8 TB,1000,2\n12 TB,3.5e3,0\n8 TB,500,1\n", Options{}, "sums", []array.Fleet{
			{Label: "12 TB", Sums: []array.Counted{{DriveDays: 3500}}},
			{Label: "8 TB", Sums: []array.Counted{{DriveDays: 1000, Failures: 2}, {DriveDays: 500, Failures: 1}}},
		}},
		{"sums by age, semicolons, decimal commas", "\ufeffAge from;age-to;Remarks;Drive days;FAILURES\r\n0;0,5;;1000,5;2\r\n0,5;1;yes, indeed;10;0\r\n\r\n;;;;\r\n", Options{}, "sums", []array.Fleet{
			{Label: "all drives", Sums: []array.Counted{{DriveDays: 1000.5, Failures: 2, To: 0.5}, {DriveDays: 10, From: 0.5, To: 1}}},
		}},
		{"ages", "hours\tfailed\tentered\tmodel\n5000\tyes\t\tA\n6000\tNo\t1000\tA\n", Options{}, "one row a drive, ages", []array.Fleet{
			{Label: "A", Drives: []array.Observed{{Hours: 5000, Failed: true}, {Entered: 1000, Hours: 6000}}},
		}},
		{"quotes", "\"hours\",\"failed\",\"label\"\n \"5000\" ,1,\"a \"\"b\"\",\nc\"\n7,0,d\n", Options{}, "one row a drive, ages", []array.Fleet{
			{Label: "a \"b\", c", Drives: []array.Observed{{Hours: 5000, Failed: true}}},
			{Label: "d", Drives: []array.Observed{{Hours: 7}}},
		}},
		{"dates", "installed,removed,failed,observed_from\n2020-01-01,2020-01-11,yes,\n2020-01-01,,no,2019-01-01\n2020-01-01,2020-03-01,yes,2020-01-02\n2020-02-01,2020-02-02,no,\n2020-01-05,2020-01-05,1,\n", until("2020-01-31"), "one row a drive, dates", []array.Fleet{
			{Label: "all drives", Notes: []string{"Left out, as they came after the day of --until: 1 drives."}, Drives: []array.Observed{
				{Hours: 240, Failed: true}, {Hours: 720}, {Entered: 24, Hours: 720}, {Hours: 12, Failed: true},
			}, Ends: []int32{18272, 18292, 18292, 18266}}, // 2020-01-11, 31, 31 and 05 by date(1)
		}},
		{"cells missing and too many at the end", "hours,failed,entered\n5,0\n6,1,,,\n", Options{}, "one row a drive, ages", []array.Fleet{
			{Label: "all drives", Drives: []array.Observed{{Hours: 5}, {Hours: 6, Failed: true}}},
		}},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := read(t, c.text, c.opt)
			if got.Form != c.form || !reflect.DeepEqual(got.Fleets, c.want) {
				t.Errorf("%s\n%+v\nwant\n%+v", got.Form, got.Fleets, c.want)
			}
		})
	}
}

// snaps is a snapshot record of the given rows: date, serial, failure, hours.
func snaps(rows ...string) string {
	text := "capacity_bytes,date,serial_number,model,failure,smart_9_raw\n"
	for _, r := range rows {
		f := strings.Fields(r)
		text += "12000000000000," + f[0] + "," + f[1] + ",," + f[2] + "," + strings.TrimPrefix(f[3], "-") + "\n"
	}
	return text
}

func TestSnapshots(t *testing.T) {
	for _, c := range []struct {
		name, text string
		opt        Options
		want       []array.Observed
		notes      []string
	}{
		{"from first to last day", snaps("2025-01-01 a 0 100", "2025-01-05 a 0 196"), Options{}, []array.Observed{{Entered: 76, Hours: 196}}, nil},
		{"out of order, twice", snaps("2025-01-05 a 0 196", "2025-01-01 a 0 100", "2025-01-01 a 0 100"), Options{}, []array.Observed{{Entered: 76, Hours: 196}}, nil},
		{"fails", snaps("2025-01-01 a 0 1000", "2025-01-02 a 1 1024"), Options{}, []array.Observed{{Entered: 976, Hours: 1024, Failed: true}}, nil},
		{"younger than a day", snaps("2025-01-01 a 0 3"), Options{}, []array.Observed{{Hours: 24}}, nil},
		{"a later reading", snaps("2025-01-01 a 0 -", "2025-01-02 a 0 148"), Options{}, []array.Observed{{Entered: 100, Hours: 148}}, nil},
		{"no reading", snaps("2025-01-01 a 0 -", "2025-01-02 a 0 -"), Options{}, []array.Observed{{Hours: 48}}, []string{"Without a reading of smart_9_raw"}},
		{"vanishes", snaps("2025-01-01 a 0 24", "2025-01-01 b 0 24", "2025-01-02 b 0 48"), Options{}, []array.Observed{{Hours: 24}, {Hours: 48}}, []string{"Seen no more before the record ends"}},
		{"comes back", snaps("2025-01-01 a 1 24", "2025-01-03 a 0 72"), Options{}, []array.Observed{{Hours: 24, Failed: true}}, []string{"Seen again after"}},
		{"an odd reading", snaps("2025-01-01 a 0 99999999999"), Options{}, []array.Observed{{Hours: 24}}, []string{"Without a reading", "passed over: 1"}},
		{"until", snaps("2025-01-01 a 0 24", "2025-01-02 a 0 48", "2025-01-03 a 1 72"), until("2025-01-02"), []array.Observed{{Hours: 48}}, nil},
	} {
		t.Run(c.name, func(t *testing.T) {
			got := read(t, c.text, c.opt)
			if len(got.Fleets) != 1 || got.Fleets[0].Label != "12 TB" || !reflect.DeepEqual(got.Fleets[0].Drives, c.want) {
				t.Errorf("%+v\nwant\n%+v", got.Fleets, c.want)
			}
			notes := got.Fleets[0].Notes
			if len(notes) != len(c.notes) {
				t.Fatalf("notes %q, want %q", notes, c.notes)
			}
			for i, n := range c.notes {
				if !strings.Contains(notes[i], n) {
					t.Errorf("note %q, want %q", notes[i], n)
				}
			}
		})
	}
}

func TestDate(t *testing.T) {
	got, ok := Date("2024-02-29")
	if want := time.Date(2024, 2, 29, 0, 0, 0, 0, time.UTC); !ok || !got.Equal(want) {
		t.Errorf("%v %v", got, ok)
	}
	for _, bad := range []string{"", "2023-02-29", "2024-13-01", "2024-00-10", "1979-12-31", "2101-01-01", "24-01-01", "2024/01/01", "2024-1-001", "2024-01-01T00:00"} {
		if d, ok := Date(bad); ok {
			t.Errorf("%q is read as %v", bad, d)
		}
	}
}
