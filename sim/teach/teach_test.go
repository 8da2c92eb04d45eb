package teach

import (
	"context"
	"math"
	"strings"
	"testing"

	"arrayodds/array/site/axis"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/exact"
	"arrayodds/sim/study"
)

// chained is a site of which the Markov chain knows every choice: constant rates,
// exponential restoring.
const chained = `
name = "Chain"
service_life = "5 y"
[[cameras]]
label = "Lock"
count = 8
bitrate = "6 Mbit/s"
retention = "30 d"
[[drives]]
label = "4 TB"
capacity = "4 TB"
life = { afr = { low = "1 %", likely = "2 %", high = "4 %" } }
transfer = "200 MB/s"
price = 100
[[drives]]
label = "8 TB"
capacity = "8 TB"
life = { afr = "3 %" }
transfer = "200 MB/s"
[[choices]]
label = "five"
drive = "4 TB"
layout = "RAID 5"
drives = 5
[[choices]]
label = "six"
drive = "4 TB"
layout = "RAID 6"
drives = 6
[care]
restore = { exponential = { low = "12 h", likely = "48 h", high = "192 h" } }
`

// asked opens a text, and asks of its first choice.
func asked(t *testing.T, text string) study.Request {
	t.Helper()
	s, err := axis.Open(strings.NewReader(text), "chain.toml")
	if err != nil {
		t.Fatal(err)
	}
	return study.Request{Source: s, Choices: []int{0}, Options: engine.Options{Seed: 1, Accuracy: 0.03, MaxTrials: 1e6}}
}

func chain(drives, tolerance int, afr, restore float64) float64 {
	return exact.Chain{Drives: drives, Tolerance: tolerance, FailurePerHour: afr / unit.HoursPerYear, RestorePerHour: 1 / restore}.LossBy(5 * unit.HoursPerYear)
}

// within says by how many standard errors an estimate is off.
func within(t *testing.T, what string, e estimate.Estimate, want float64) {
	t.Helper()
	if d := math.Abs(e.Value-want) / (e.RelativeError * e.Value); !(d < 4) {
		t.Errorf("%s: %+v, exact %g: %.1f standard errors apart", what, e, want, d)
	}
}

// A lesson's answers against the chain, and its questions in all layouts.
func TestLesson(t *testing.T) {
	got, err := Run(context.Background(), asked(t, chained))
	if err != nil {
		t.Fatal(err)
	}
	within(t, "as it is", got.Loss, chain(5, 1, 0.02, 48))
	if len(got.Questions) != 3 {
		t.Fatalf("%d questions", len(got.Questions))
	}
	for _, q := range got.Questions {
		before, after := q.Points[q.Before], q.Points[q.After]
		switch q.Key {
		case "size": // 16 TB of room on drives of 8 TB takes 3; the restore law does not know the size
			within(t, "larger drives", after.Loss, chain(3, 1, 0.02, 48))
		case "response":
			within(t, "slower", after.Loss, chain(5, 1, 0.02, 192))
			within(t, "times", q.Times, chain(5, 1, 0.02, 192)/chain(5, 1, 0.02, 48))
		case "parity":
			within(t, "one more", after.Loss, chain(6, 2, 0.02, 48))
		}
		if before.Loss != got.Loss || q.Why == "" || len(q.Facts) == 0 {
			t.Errorf("%+v", q)
		}
	}
	for _, layout := range []string{"JBOD", "RAID 0", "RAID 1", "RAID 10", "RAID 6", "triple parity", "RAID 50", "RAID 60", "6+3", "4+4"} {
		text := strings.Replace(chained, "layout = \"RAID 5\"\ndrives = 5", "layout = \""+layout+"\"\n"+map[string]string{"6+3": "drives = 9", "RAID 50": "drives = 8\ngroups = 2", "RAID 60": "drives = 8\ngroups = 2"}[layout], 1)
		if !strings.Contains(text, "drives = 9") && !strings.Contains(text, "groups = 2") {
			text = strings.Replace(text, "layout = \""+layout+"\"\n", "layout = \""+layout+"\"\ndrives = 8\n", 1)
		}
		a := asked(t, text)
		a.Options.Accuracy = 0.2 // the figures are not looked at
		got, err := Run(context.Background(), a)
		if err != nil {
			t.Fatalf("%s: %v", layout, err)
		}
		if len(got.Questions) < 2 {
			t.Errorf("%s: %d questions", layout, len(got.Questions))
		}
		for _, q := range got.Questions {
			if q.Points[q.Before].Loss != got.Loss || q.Points[q.After].Absent != "" || q.Title == "" || q.Ask == "" {
				t.Errorf("%s: %+v", layout, q)
			}
		}
	}
}
