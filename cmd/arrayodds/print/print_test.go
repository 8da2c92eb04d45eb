package print

import (
	"flag"
	"math"
	"os"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"

	"github.com/jedib0t/go-pretty/v6/text"
)

var update = flag.Bool("update", false, "write the golden files anew")

func golden(t *testing.T, name, got string) {
	t.Helper()
	path := "testdata/" + name
	if *update {
		if err := os.WriteFile(path, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	want, err := os.ReadFile(path)
	if err != nil {
		t.Fatal(err)
	}
	if got != string(want) {
		t.Errorf("%s: got\n%s\nwant\n%s", name, got, want)
	}
	for line := range strings.Lines(got) {
		line = strings.TrimSuffix(line, "\n")
		if n := text.StringWidthWithoutEscSequences(line); n > columnsWide {
			t.Errorf("%s: a line is %d columns wide:\n%s", name, n, line)
		}
		if strings.TrimRight(line, " ") != line {
			t.Errorf("%s: blanks at the end of %q", name, line)
		}
	}
}

// sample returns a site with two groups of cameras and three choices: the safest one
// last, one short of room.
func sample() (array.Site, []study.Outcome) {
	s := array.Site{
		Name:        "Heron \x1b[2Jlock",
		ServiceLife: 5 * unit.HoursPerYear,
		Currency:    "EUR",
		Cameras: []array.Cameras{
			{Label: "Lock", Count: 1200, BitRate: 4e6, HoursPerDay: 24, Activity: 1, Retention: 720},
			{Label: "Gate house", Count: 2, BitRate: 4e6, HoursPerDay: 12, Activity: 0.5, Retention: 168},
		},
	}
	drive := array.Drive{Label: "12 TB", Capacity: 12e12, Transfer: 2e8, Price: 290, Power: 7}
	care := array.Care{RebuildShare: 0.5, RebuildFloor: 2e7}
	recorder := &array.Recorder{Price: 24000, Bays: 200, IdlePower: math.NaN()}
	s.Choices = []array.Choice{
		{Label: "cheap", Drive: drive, Layout: array.Layout{Level: array.JBOD}, Drives: 4, Groups: 1, Care: care},
		{Label: "one parity drive in each of a dozen groups", Drive: drive, Layout: array.Layout{Level: array.RAID5}, Drives: 144, Groups: 12, HotSpares: 2, Care: care, Recorder: recorder},
		{Label: "two parity drives", Drive: drive, Layout: array.Layout{Level: array.RAID60}, Drives: 160, Groups: 10, Care: care, Recorder: recorder},
	}
	results := []sim.Result{
		{LossChance: estimate.Estimate{Value: 0.18, Low: 0.176, High: 0.184}, MissingClip: estimate.Estimate{Value: 0.9, Low: 0.9, High: 0.9}, StoppedBy: engine.ByAccuracy},
		{LossChance: estimate.Estimate{Value: 2.1e-3, Low: 2e-3, High: 2.2e-3}, MissingClip: estimate.Estimate{Value: 3.3e-5, Low: 3.2e-5, High: 3.4e-5}, StoppedBy: engine.ByBudget},
		{LossChance: estimate.Estimate{Value: 4.7e-10, Low: 4e-10, High: 5.4e-10}, MissingClip: estimate.Estimate{Value: 5.7e-8, Low: 5.6e-8, High: 5.8e-8}, StoppedBy: engine.ByAccuracy,
			Warnings: []string{"One trial in a million carries half of the sum, so that the interval is narrower than it should be."}},
	}
	var out []study.Outcome
	for i, c := range s.Choices {
		z, err := s.Size(c)
		if err != nil {
			panic(err)
		}
		out = append(out, study.Outcome{Choice: c, Sizing: z, Result: results[i]})
	}
	return s, out
}

// estimatedSite returns the sample with its first group's bit rate estimated: 4 Mbit/s likely,
// 2 to 8.
func estimatedSite() array.Site {
	s, _ := sample()
	p := array.Picture{Pixels: 2e6, FramesPerSecond: 25, Codec: array.H264}
	s.Cameras[0].Picture = p
	_, s.Cameras[0].BitRate, _ = p.BitRate()
	return s
}

var (
	unknown = estimate.None()
	likely  = estimate.Estimate{Value: 4.2e-4, Low: 4.0e-4, High: 4.4e-4, RelativeError: 0.024}
	rare    = estimate.Estimate{Value: 1.3e-9, Low: 1.25e-9, High: 1.35e-9, RelativeError: 0.02}
	twice   = estimate.Estimate{Value: 2.02, Low: 1.97, High: 2.07}
)

func show(t *testing.T, write func(*strings.Builder) error) string {
	t.Helper()
	var b strings.Builder
	if err := write(&b); err != nil {
		t.Fatal(err)
	}
	return b.String()
}
