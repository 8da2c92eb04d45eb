package state

import (
	"errors"
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/toml"
)

var choices = []array.Choice{
	{Label: "double parity", Layout: array.Layout{Level: array.RAID6}, Drives: 8, Groups: 1, HotSpares: 1},
	{Label: "two groups", Layout: array.Layout{Level: array.RAID5}, Drives: 8, Groups: 2, Care: array.Care{Parallel: true}},
}

func TestRead(t *testing.T) {
	f, err := Read(strings.NewReader(`
choice = "double parity"
when = "Wed 03:30"
age = "3 y"
hot_spares = 0
spare_in = "2 d"
technician_in = "14 h"
drive_in = "10 h"
scrubbed = "5 d"
[[drives]]
number = 3
label = "bay 3"
state = "rebuilding"
down_for = "20 h"
rebuilding_for = "6 h"
rebuilt = "40 %"
[[drives]]
number = 5
age = "100 d"
defects = 2
[[drives]]
number = 7
state = "down"
`), "s.toml", choices, "")
	if err != nil {
		t.Fatal(err)
	}
	s := f.State
	if f.Choice != 0 || s.HourOfWeek != 51.5 || s.Spares != 0 || s.SpareIn != 48 || s.TechnicianIn != 14 || s.DriveIn != 10 || s.Scrubbed != 120 {
		t.Errorf("%+v", f)
	}
	if d := s.Drives[2]; !d.Down || !d.Rebuilding || d.Rebuilt != 0.4 || d.RebuiltFor != 6 || d.DownFor != 20 || d.Age != 3*8760 || d.Label != "bay 3" {
		t.Errorf("drive 3: %+v", d)
	}
	if d := s.Drives[4]; d.Down || d.Age != 2400 || d.Defects != 2 {
		t.Errorf("drive 5: %+v", d)
	}
	if d := s.Drives[6]; !d.Down || d.Rebuilding || !math.IsNaN(d.DownFor) {
		t.Errorf("drive 7: %+v", d)
	}
	if len(s.Drives) != 8 {
		t.Errorf("%d drives", len(s.Drives))
	}
}

// Each mistake is one error, at its line, and says what would be right.
func TestMistakes(t *testing.T) {
	const head = "choice = \"double parity\"\nage = \"3 y\"\n"
	for _, c := range []struct {
		text  string
		line  int
		wants []string
	}{
		{head + "[[drives]]\nnumber = 2\n[[drives]]\nnumber = 2\n", 6, []string{"drives 2.number", "drive 2 again", "each drive once", "line 4"}},
		{head + "[[drives]]\nnumber = 9\nstate = \"down\"\n", 4, []string{"found 9", "1 to 8"}},
		{head + "hot_spares = 2\n", 3, []string{"hot_spares", "at most 1"}},
		{head + "[[drives]]\nnumber = 2\nrebuilt = \"40 %\"\n", 5, []string{"rebuilt", `state = "rebuilding"`, "running"}},
		{head + "[[drives]]\nnumber = 2\nstate = \"down\"\nrebuilt = \"40 %\"\n", 6, []string{"rebuilt", "that is down"}},
		{head + "[[drives]]\nnumber = 2\ndown_for = \"4 h\"\n", 5, []string{"down_for", "this drive runs"}},
		{head + "[[drives]]\nnumber = 2\nstate = \"down\"\ndefects = 3\n", 6, []string{"defects", "nothing is read"}},
		{head + "[[drives]]\nnumber = 2\nstate = \"down\"\ndown_for = \"4 y\"\n", 6, []string{"down_for", "at most its age"}},
		{head + "[[drives]]\nnumber = 2\nage = \"1 d\"\nstate = \"down\"\ndown_for = \"30 h\"\n", 7, []string{"down_for", "at most its age", "24 h"}},
		{head + "[[drives]]\nnumber = 2\nstate = \"rebuilding\"\ndown_for = \"4 h\"\nrebuilding_for = \"5 h\"\n", 7, []string{"rebuilding_for", "at most down_for"}},
		{head + "scrubbed = \"4 y\"\n", 3, []string{"scrubbed", "oldest drive"}},
		{head + "when = \"noon\"\n", 3, []string{"when", "Tue 03:00"}},
		{head + "when = 2026-11-24\n", 3, []string{"when", "2026-11-24T03:00:00"}},
		{head + "technician = \"3 h\"\n", 3, []string{"unknown key", "technician_in"}},
		{head + "drive_in = 3\n", 3, []string{"without a unit"}},
		{head + "[[drives]]\nstate = \"down\"\n", 3, []string{"drives 1.number", "found nothing"}},
		{head + "[[drives]]\nnumber = 1\nstate = \"rebuilding\"\n[[drives]]\nnumber = 2\nstate = \"rebuilding\"\n", 8, []string{"a second rebuild", `"down"`}},
		{"choice = \"double party\"\nage = \"3 y\"\n", 1, []string{"choice", "double parity"}},
		{"age = \"3 y\"\n", 1, []string{"choice", "found nothing"}},
		{"choice = \"double parity\"\n", 1, []string{"age", "found nothing"}},
		{head + "[[drives]]\nnumber = 2\nrebuilt = { low = 1, likely = 2, high = 3 }\n", 5, []string{"rebuilt"}},
	} {
		_, err := Read(strings.NewReader(c.text), "s.toml", choices, "")
		errs, ok := errors.AsType[toml.Errors](err)
		if !ok || len(errs) != 1 {
			t.Errorf("%s: %v, want one error", c.text, err)
			continue
		}
		if errs[0].Line != c.line {
			t.Errorf("%s: line %d, want %d: %v", c.text, errs[0].Line, c.line, err)
		}
		for _, want := range c.wants {
			if !strings.Contains(err.Error(), want) {
				t.Errorf("%s: %q, want %q in it", c.text, err, want)
			}
		}
	}
}

// All mistakes come at once.
func TestAllMistakesAtOnce(t *testing.T) {
	_, err := Read(strings.NewReader("choice = \"double parity\"\nage = 3\nhot_spares = 5\n[[drives]]\nnumber = 11\n[[drives]]\nnumber = 2\nstate = \"gone\"\n"), "s.toml", choices, "")
	if errs, ok := errors.AsType[toml.Errors](err); !ok || len(errs) != 4 {
		t.Errorf("%v, want four errors", err)
	}
}

// Rebuilds of two groups, and of one where they run side by side, are none.
func TestRebuildsSideBySide(t *testing.T) {
	if _, err := Read(strings.NewReader("choice = \"two groups\"\nage = \"1 y\"\n[[drives]]\nnumber = 1\nstate = \"rebuilding\"\n[[drives]]\nnumber = 5\nstate = \"rebuilding\"\n"), "s.toml", choices, ""); err != nil {
		t.Error(err)
	}
}

// The example can be read, and what is written is read again as it was.
func TestWrite(t *testing.T) {
	f, err := Read(strings.NewReader(Example("double parity", 8)), "s.toml", choices, "")
	if err != nil {
		t.Fatal(err)
	}
	again, err := Read(strings.NewReader(Write("double parity", f.State)), "s.toml", choices, "")
	if err != nil {
		t.Fatal(err)
	}
	if Write("double parity", again.State) != Write("double parity", f.State) {
		t.Errorf("%+v, was %+v", again.State, f.State)
	}
	if down := again.State.Down(); len(down) != 1 || down[0] != 3 {
		t.Errorf("down: %v", down)
	}
}

// A date and time is an hour of the week: 24 November 2026 is a Tuesday.
func TestWhen(t *testing.T) {
	f, err := Read(strings.NewReader("choice = \"double parity\"\nage = \"3 y\"\nwhen = 2026-11-24T03:15:00\n"), "s.toml", choices, "")
	if err != nil || f.State.HourOfWeek != 27.25 {
		t.Errorf("%v, %v", f, err)
	}
}

func FuzzRead(f *testing.F) {
	f.Add(Example("double parity", 8))
	f.Add("age = \"3 y\"\n[[drives]]\nnumber = 1\n")
	f.Fuzz(func(t *testing.T, text string) {
		file, err := Read(strings.NewReader(text), "s.toml", choices, "")
		if (file == nil) == (err == nil) {
			t.Errorf("%v and %v", file, err)
		}
		if err != nil {
			return
		}
		if _, err := Read(strings.NewReader(Write(choices[file.Choice].Label, file.State)), "s.toml", choices, ""); err != nil {
			t.Errorf("written again: %v", err)
		}
	})
}
