package site

import (
	"bytes"
	"errors"
	"math"
	"os"
	"strings"
	"testing"
	"testing/fstest"
	"unicode/utf8"

	"arrayodds/array/hostile"
	"arrayodds/array/site/rewrite"
)

// judgeErrors fails where an error is none of a site file, or does not say in one line of
// plain text where something is wrong, what was found and what would be right.
func judgeErrors(t *testing.T, err error) Errors {
	t.Helper()
	var errs Errors
	if !errors.As(err, &errs) || len(errs) == 0 {
		t.Fatalf("%T %v", err, err)
	}
	for _, e := range errs {
		if e.Line < 1 || e.Found == "" || e.Right == "" || strings.ContainsAny(e.Error(), "\n\r\x1b\x00") || !utf8.ValidString(e.Error()) {
			t.Fatalf("%+q", e)
		}
	}
	return errs
}

// FuzzSchedule: the same where the cameras stand in a spreadsheet; and what
// WithChoices makes of it is read as the same site.
func FuzzSchedule(f *testing.F) {
	f.Add(small, rows)
	f.Add("name = \"x\" # y\n"+small+"# z", "label,count,bitrate,retention\n\"a\\\"\"\",1,6 Mbit/s,30 d\n")
	f.Fuzz(func(t *testing.T, in, csv string) {
		in = "cameras = \"s.csv\"\n" + in
		got, err := Read(strings.NewReader(in), "s.toml", Beside(fstest.MapFS{"s.csv": {Data: []byte(csv)}}))
		if err != nil {
			judgeErrors(t, err)
			return
		}
		out := rewrite.WithChoices([]byte(in), got.Site.Cameras, got.Site.Choices[:1])
		again, err := Read(bytes.NewReader(out), "out.toml")
		if err != nil {
			t.Fatalf("%v\n%s", err, out)
		}
		if len(again.Site.Choices) != 1 || len(again.Site.Cameras) != len(got.Site.Cameras) || again.Run != got.Run {
			t.Fatalf("%+v\n%s", again, out)
		}
	})
}

// FuzzRead: whatever the text, the answer is a site that can be sized, or errors
// in order that each have a place, one line, what was found and what is right.
func FuzzRead(f *testing.F) {
	f.Add(small)
	f.Add(ranged)
	for _, name := range []string{"testdata/everything.toml", "testdata/many-errors.toml", "../../testdata/saltmarsh.toml"} {
		b, err := os.ReadFile(name)
		if err != nil {
			f.Fatal(err)
		}
		f.Add(string(b))
	}
	for _, s := range []string{"", "\ufeff", "x = [{a=1}, {b.c=2}]\n[x.y]\n", "a.b = 1\n[a]\n", "[[a]]\n[a.b]\n[[a]]\n[a.b]\n", "x = \"\"\"\n\n", "[[drives]]\nlife = 07:32:00\n"} {
		f.Add(s)
	}
	for _, seed := range hostile.Seeds(hostile.Sites(), ".toml") {
		f.Add(string(seed))
	}
	f.Fuzz(func(t *testing.T, in string) {
		got, err := Read(strings.NewReader(in), "s.toml")
		if err == nil {
			if len(got.Site.Choices) == 0 || got.Run.MaxTrials < 1000 || !(got.Run.Accuracy > 0) || len(got.Assumptions) == 0 {
				t.Fatalf("%+v", got)
			}
			for _, c := range got.Site.Choices {
				z, err := got.Site.Size(c)
				if err != nil {
					t.Fatalf("%s: %v", c.Label, err)
				}
				if math.IsInf(z.RebuildRun, 0) || math.IsNaN(z.RebuildRun) || !(z.Usable > 0) || c.Drive.Life == nil || c.Care.Notice == nil || c.Care.Response == nil || c.Care.Restock == nil {
					t.Fatalf("%+v %+v", c, z)
				}
			}
			return
		}
		errs := judgeErrors(t, err)
		lines := strings.Count(in, "\n") + 1
		for i, e := range errs {
			if e.Line > lines {
				t.Fatalf("%+q", e)
			}
			if i > 0 && e.Line < errs[i-1].Line {
				t.Fatalf("out of order: %v", errs)
			}
		}
	})
}

// FuzzLog: the same where a log stands in a record beside the file; what it leaves of the
// law is a law.
func FuzzLog(f *testing.F) {
	for _, name := range []string{"dates.csv", "ages.csv", "sums.csv", "bands.csv", "two.csv", "wrong.csv"} {
		f.Add("until = 2026-01-01", string(records[name].Data), false)
		f.Add("", string(records[name].Data), true)
	}
	f.Add("model = \"X1\"\n[[log]]\ndrive = \"12 TB\"\nfailures = 1000000000\ndrives = 100000\nsince = 2000-01-01\nuntil = 2049-01-01", "drive_days,failures\n1e12,1e9\n", false)
	f.Fuzz(func(t *testing.T, more, csv string, ages bool) {
		life := `{ afr = { low = "0.5 %", likely = "1.5 %", high = "3 %" } }`
		if ages {
			life = `{ shape = 1.3, scale = "400000 h", shape_error = "10 %", scale_error = "20 %", correlation = -0.5 }`
		}
		in := logged(life, "drive = \"12 TB\"\nfile = \"r.csv\"\n"+more)
		got, err := Read(strings.NewReader(in), "s.toml", Beside(fstest.MapFS{"r.csv": {Data: []byte(csv)}}))
		if err != nil {
			judgeErrors(t, err)
			return
		}
		for _, d := range got.Site.Drives {
			if l := d.Log; l != nil {
				after := l.After
				if !(after.Shape > 0) || !(after.Rate > 0) || math.IsInf(after.Shape, 0) || math.IsInf(after.Rate, 0) || !(d.Life.Expected(0, 8760) >= 0) {
					t.Fatalf("%+v %+v", l, d.Life)
				}
			}
		}
	})
}
