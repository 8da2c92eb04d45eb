package record

import (
	"bytes"
	"errors"
	"math"
	"strings"
	"testing"
	"unicode/utf8"

	"arrayodds/array/hostile"
)

// check: whatever comes, the answer is a record that can be fitted or errors in
// words.
func check(t *testing.T, data []byte, opt Options) {
	got, err := Read(t.Context(), bytes.NewReader(data), "x", opt)
	if err != nil {
		errs, ok := errors.AsType[Errors](err)
		if !ok || len(errs) == 0 || len(errs) > maxErrors+1 {
			t.Fatalf("%T %v", err, err)
		}
		for _, e := range errs {
			if e.Found == "" || e.Right == "" || strings.ContainsAny(e.Error(), "\n\r\x1b\x00") || !utf8.ValidString(e.Error()) || len(e.Error()) > 5000 {
				t.Fatalf("%+q", e)
			}
		}
		return
	}
	if len(got.Fleets) == 0 {
		t.Fatal("nothing, and no error")
	}
	for _, f := range got.Fleets {
		if f.Label == "" || !utf8.ValidString(f.Label) || (len(f.Drives) > 0) == (len(f.Sums) > 0) {
			t.Fatalf("%+v", f)
		}
		for _, d := range f.Drives {
			if !(d.Entered >= 0) || !(d.Hours > d.Entered) || math.IsInf(d.Hours, 0) {
				t.Fatalf("%+v", d)
			}
		}
		for _, c := range f.Sums {
			if !(c.DriveDays > 0) || !(c.Failures >= 0) || math.IsInf(c.DriveDays, 0) || !(c.From >= 0) || c.To != 0 && !(c.To > c.From) {
				t.Fatalf("%+v", c)
			}
		}
	}
}

func fuzz(f *testing.F, opt Options, hostileEnding string, pack func(fataler, string) []byte, seeds ...string) {
	for _, s := range seeds {
		f.Add(pack(f, s))
	}
	for _, seed := range hostile.Seeds(hostile.Records(), hostileEnding) {
		f.Add(seed)
	}
	f.Fuzz(func(t *testing.T, data []byte) { check(t, data, opt) })
}

func plain(_ fataler, s string) []byte { return []byte(s) }

func FuzzSums(f *testing.F) {
	fuzz(f, Options{}, ".csv", plain, "label,drive_days,failures\n8 TB,1000,2\n", "age_from;age_to;drive_days;failures\n0;0,5;1000,5;2\n", "drive_days\tfailures\tmodel\n1e3\t\"1\"\t\"a\n\"\"b\"\n")
}

func FuzzAges(f *testing.F) {
	fuzz(f, Options{}, ".csv", plain, "hours,failed,entered,label\n5000,yes,,A\n6000,No,1000,\"A\"\n", "\ufeffhours;failed\r\n1,5;1\r\n", "\"hours\",failed\n\"1")
}

func FuzzDates(f *testing.F) {
	fuzz(f, until("2020-06-01"), ".csv", plain, "installed,removed,failed,observed_from\n2020-01-01,2020-01-11,yes,\n2020-01-01,,no,2019-01-01\n2020-07-01,,no,\n")
}

func FuzzSnapshots(f *testing.F) {
	fuzz(f, Options{}, ".csv", plain, snaps("2025-01-05 a 0 196", "2025-01-01 a 0 100", "2025-01-06 b 1 99999999999"), "date,serial_number,model,capacity_bytes,failure\n2025-01-01,a,\"m\",1,0\n")
}

func FuzzGzip(f *testing.F) {
	fuzz(f, Options{}, ".gz", gzipOf, "hours,failed\n5,1\n", snaps("2025-01-05 a 0 196"))
}

func FuzzZip(f *testing.F) {
	fuzz(f, Options{}, ".zip", func(t fataler, s string) []byte { return zipOf(t, map[string]string{"a.csv": s, "b.txt": s}) }, "hours,failed\n5,1\n", snaps("2025-01-05 a 0 196"))
}
