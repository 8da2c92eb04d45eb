package fit

import (
	"fmt"
	"math/rand/v2"
	"testing"

	"arrayodds/array"
	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
	"arrayodds/sim/fit"
	"arrayodds/sim/study"
)

// fittedSample is a made record that has everything such a page must show: a
// fleet that ages, one that is thin, one without a failure, sums, and a label
// that is markup.
func fittedSample() fits {
	r := rand.New(rand.NewPCG(1, 2))
	fleet := func(label string, n int, scale float64) array.Fleet {
		f := array.Fleet{Label: label, Notes: []string{"so it was read"}}
		for range n {
			entered := float64(r.IntN(20000))
			age := entered + scale*r.ExpFloat64()
			end := entered + 30000
			f.Drives = append(f.Drives, array.Observed{Entered: entered, Hours: min(age, end), Failed: age < end})
		}
		return f
	}
	out := fits{study.Fit{Record: chartstest.Hostile, Form: "one row a drive, ages", Rows: 430}}
	ageing := fleet(chartstest.Hostile, 200, 100000)
	for i := range ageing.Drives { // late failures only
		ageing.Drives[i].Failed = ageing.Drives[i].Failed && ageing.Drives[i].Hours > 15000
	}
	for _, f := range []array.Fleet{ageing, fleet("thin", 30, 300000), fleet("none", 2, 1e12),
		{Label: "sums", Sums: []array.Counted{{DriveDays: 3555491, Failures: 50, To: 1}}}} {
		out.Results = append(out.Results, fit.Fleet(f))
	}
	return out
}

func TestWhatAFitPageSays(t *testing.T) {
	t.Parallel()
	chartstest.CheckPage(t, func() page.Contents { return fittedSample().contents() },
		"life = { failures = 50, drive_days = 3555491 }",
		"Fewer than 10 failures",
		"No failure was seen",
		"so it was read",
		"No drive failed, so there is nothing to draw.",
		"The record gives sums, of which no curve can be drawn.",
		"The steps are what was seen",
		"life = { shape = ",
		"Beyond the greatest age seen, a law is a guess.",
		"Ages at which the rate passes 5 % and 10 % a year",
	)
	chartstest.CheckNoMarkup(t, fittedSample().contents())
}

// The fleets with the most failures are drawn, and it is said that others are not.
func TestManyLabels(t *testing.T) {
	t.Parallel()
	var f fits
	for i := range 20 {
		f.Results = append(f.Results, fit.Fleet(array.Fleet{Label: fmt.Sprintf("model %d", i),
			Drives: []array.Observed{{Hours: 30000, Failed: i >= 5}, {Hours: 40000, Failed: i >= 10}, {Hours: 50000}}}))
	}
	drawn := f.charts()
	if len(drawn) != mostCurves || drawn[0].ID != "survival-6" || drawn[len(drawn)-1].ID != "survival-20" {
		t.Fatalf("%d drawn, from %s to %s", len(drawn), drawn[0].ID, drawn[len(drawn)-1].ID)
	}
	chartstest.CheckPage(t, func() page.Contents { return f.contents() }, "Not drawn, having fewer failures: 8 labels.")
}

func TestShareScale(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ least, low, step float64 }{
		{0.9995, 0.9995, 0.0001}, {0.985, 0.98, 0.005}, {0.93, 0.9, 0.02}, {0.81, 0.8, 0.05}, {0.72, 0.7, 0.1}, {0.6, 0.5, 0.1}, {0.1, 0, 0.2}, {0, 0, 0.2},
	} {
		low, step := shareScale([]fit.Survived{{Value: 1, Low: c.least}}, nil)
		if low != c.low || step != c.step {
			t.Errorf("for %v: from %v by %v, want from %v by %v", c.least, low, step, c.low, c.step)
		}
	}
}

func TestFitPageInABrowser(t *testing.T) {
	t.Parallel()
	chartstest.CheckInBrowser(t, chartstest.PageCase{Name: "fit", Contents: fittedSample().contents(), Drawings: 2, Shapes: 10, Texts: 5,
		TipOf: "survival-1", Tip: "watched at that age", Check: func(t *testing.T, _ *chartstest.Tab, s chartstest.Seen) {
			for _, d := range s.Drawings {
				if !d.Says("100 %") || !d.Says("age in years") {
					t.Errorf("at %d pixels %s says %q", s.Width, d.ID, d.Texts)
				}
			}
		}})
}
