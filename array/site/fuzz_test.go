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
)

// FuzzSchedule: the same where the cameras stand in a spreadsheet; and what
// WithChoices makes of it is read as the same site.
func FuzzSchedule(f *testing.F) {
	f.Add(small, rows)
	f.Add("name = \"x\" # y\n"+small+"# z", "label,count,bitrate,retention\n\"a\\\"\"\",1,6 Mbit/s,30 d\n")
	f.Fuzz(func(t *testing.T, in, csv string) {
		in = "cameras = \"s.csv\"\n" + in
		got, err := Read(strings.NewReader(in), "s.toml", Beside(fstest.MapFS{"s.csv": {Data: []byte(csv)}}))
		if err != nil {
			var errs Errors
			if !errors.As(err, &errs) || len(errs) == 0 {
				t.Fatalf("%T %v", err, err)
			}
			for _, e := range errs {
				if e.Line < 1 || e.Found == "" || e.Right == "" || strings.ContainsAny(e.Error(), "\n\r\x1b\x00") || !utf8.ValidString(e.Error()) {
					t.Fatalf("%+q", e)
				}
			}
			return
		}
		out := WithChoices([]byte(in), got, got.Site.Choices[:1])
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
		var errs Errors
		if !errors.As(err, &errs) || len(errs) == 0 {
			t.Fatalf("%T %v", err, err)
		}
		lines := strings.Count(in, "\n") + 1
		for i, e := range errs {
			if e.Line < 1 || e.Line > lines || e.Found == "" || e.Right == "" || strings.ContainsAny(e.Error(), "\n\r\x1b\x00") || !utf8.ValidString(e.Error()) {
				t.Fatalf("%+q", e)
			}
			if i > 0 && e.Line < errs[i-1].Line {
				t.Fatalf("out of order: %v", errs)
			}
		}
	})
}
