package plan

import (
	"context"
	"os"
	"strings"
	"testing"

	"arrayodds/array/site/axis"
	"arrayodds/array/thorough"
	"arrayodds/charts/chartstest"
	"arrayodds/sim/engine"
	"arrayodds/sim/plan"
	"arrayodds/sim/study"
)

func TestMain(m *testing.M) { chartstest.Main(m) }

// saltmarsh returns the plan of one choice of the demo.
func saltmarsh(t *testing.T, label string) plan.Plan {
	t.Helper()
	in, err := os.Open("../../testdata/saltmarsh.toml")
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	source, err := axis.Open(in, "saltmarsh.toml")
	if err != nil {
		t.Fatal(err)
	}
	for i, c := range source.File().Site.Choices {
		if c.Label == label {
			p, err := plan.Make(context.Background(), study.Request{Source: source, Choices: []int{i}, Options: engine.Options{Seed: 1, Accuracy: 0.1, MaxTrials: 1e5}})
			if err != nil {
				t.Fatal(err)
			}
			return p
		}
	}
	t.Fatalf("the demo has no choice %q", label)
	return plan.Plan{}
}

// Each sheet of the demo takes one page of paper, and no phone has to be moved sideways.
func TestSheetsOnPaperAndPhone(t *testing.T) {
	t.Parallel()
	tab := chartstest.NewTab(t)
	for i, label := range []string{"RAID 60, 2 x 6 x 12 TB", "RAID 6, 7 x 18 TB, hot spare", "JBOD, 5 x 18 TB"} {
		if !thorough.Part(i, 3) {
			continue
		}
		c := sheets{saltmarsh(t, label)}.contents()
		tab.ShowBare("plan", c, 360)
		if beyond := tab.Ask("Math.max(0, document.documentElement.scrollWidth - innerWidth)"); beyond != "0" {
			t.Errorf("%s is %s pixels wider than a phone", label, beyond)
		}
		if pages := tab.Pages(); pages != 7 {
			t.Errorf("%s takes %d pages of paper for 7 sheets", label, pages)
		}
	}
}

// What the page says is what the plan has; labels of the file bring no markup with them.
func TestPage(t *testing.T) {
	t.Parallel()
	p := saltmarsh(t, "RAID 6, 7 x 18 TB, hot spare")
	p.Site.Build.AlarmsTo = ""
	p.Choice.Label = "<b>six & two</b>"
	for i := range p.Settings {
		if p.Settings[i].Name == "Alarms go to" {
			p.Settings[i].Value = "<i>duty</i>"
		}
	}
	var b strings.Builder
	if err := Write(&b, p); err != nil {
		t.Fatal(err)
	}
	text := b.String()
	for _, want := range []string{"&lt;b&gt;six &amp; two&lt;/b&gt;", "&lt;i&gt;duty&lt;/i&gt;", `class="bay spare"`, "hot spare", "licensed electrician", "Handed over by", "RAID is no backup", `class="blank"`} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if bays := strings.Count(text, `<g class="bay`); bays != 8 {
		t.Errorf("%d bays are drawn, want 8", bays)
	}
	if strings.Contains(text, "<script") {
		t.Error("the page has a script")
	}
}

// Figures and short words behind them stay in one line.
func TestGlue(t *testing.T) {
	t.Parallel()
	if got, want := glue("12 TB, 3 W and 40 % of 7 drives"), "12\u00a0TB, 3\u00a0W and 40\u00a0% of 7 drives"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}

// Batches go by letters.
func TestLetters(t *testing.T) {
	t.Parallel()
	for batch, want := range map[int]string{1: "A", 26: "Z", 27: "AA", 52: "AZ", 53: "BA"} {
		if got := letterOf(batch); got != want {
			t.Errorf("batch %d is %q, want %q", batch, got, want)
		}
	}
}
