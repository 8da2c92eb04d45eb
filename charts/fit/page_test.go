package fit

import (
	"encoding/json"
	"fmt"
	"math/rand/v2"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/charts/chartstest"
	"arrayodds/sim/fit"
	"arrayodds/sim/study"

	"github.com/chromedp/chromedp"
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

func renderFit(t *testing.T, f fits, script string) string {
	t.Helper()
	return chartstest.Render(t, f.contents(), script)
}

func TestWhatAFitPageSays(t *testing.T) {
	text := renderFit(t, fittedSample(), chartstest.StandIn)
	for _, want := range []string{
		"life = { failures = 50, drive_days = 3555491 }",
		"Fewer than 10 failures",
		"No failure was seen",
		"so it was read",
		"No drive failed, so there is nothing to draw.",
		"The record gives sums, of which no curve can be drawn.",
		"The steps are what was seen",
		"life = { shape = ",
		"Beyond the greatest age seen, a law is a guess.",
	} {
		if !strings.Contains(text, want) && !strings.Contains(text, strings.ReplaceAll(want, "\"", "&#34;")) {
			t.Errorf("the page does not say %q", want)
		}
	}
	for _, bad := range []string{"NaN", "Inf", "<img", "<script>window"} {
		if strings.Contains(text, bad) {
			t.Errorf("the page holds %q", bad)
		}
	}
	if found := chartstest.Loads.FindString(text); found != "" {
		t.Errorf("the page loads something: %s", found)
	}
	if text != renderFit(t, fittedSample(), chartstest.StandIn) {
		t.Error("two pages of one record differ")
	}
	if without := renderFit(t, fittedSample(), ""); !strings.Contains(without, "The charts are missing.") || strings.Contains(without, "<script") {
		t.Error("the page without the script does not say so")
	}
}

// The fleets with the most failures are drawn, and it is said that others are not.
func TestManyLabels(t *testing.T) {
	var f fits
	for i := range 20 {
		f.Results = append(f.Results, fit.Fleet(array.Fleet{Label: fmt.Sprintf("model %d", i),
			Drives: []array.Observed{{Hours: 30000, Failed: i >= 5}, {Hours: 40000, Failed: i >= 10}, {Hours: 50000}}}))
	}
	drawn := f.charts()
	if len(drawn) != mostCurves || drawn[0].ID != "survival-6" || drawn[len(drawn)-1].ID != "survival-20" {
		t.Fatalf("%d drawn, from %s to %s", len(drawn), drawn[0].ID, drawn[len(drawn)-1].ID)
	}
	if text := renderFit(t, f, chartstest.StandIn); !strings.Contains(text, "Not drawn, having fewer failures: 8 labels.") {
		t.Error("the page does not say that labels are left out")
	}
}

func TestShareScale(t *testing.T) {
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
	ctx := chartstest.Browser(t)
	var wrong chartstest.Complaints
	wrong.Listen(t, ctx)
	path := chartstest.KeepPage(t, "fit.html", fittedSample().contents())
	// The tooltip of the page's look is that of the first drawing.
	script := strings.Replace(chartstest.Look, "drawing-loss", "drawing-survival-1", 1)
	for _, width := range []int64{390, 768, 1280} {
		if err := chromedp.Do(ctx, chromedp.EmulateViewport(width, 900), chromedp.Navigate("file://"+path)); err != nil {
			t.Fatal(err)
		}
		text, err := chromedp.Run(ctx, chromedp.Evaluate[string](script))
		if err != nil {
			t.Fatal(err)
		}
		var s chartstest.Seen
		if err := json.Unmarshal([]byte(text), &s); err != nil {
			t.Fatal(err)
		}
		wrong.Check(t)
		if s.Wide > 0 || s.Hit || s.Images > 0 || s.TipIn > 0 {
			t.Errorf("at %d: %+v", width, s)
		}
		if len(s.Drawings) != 2 {
			t.Errorf("%d drawings, want those of the two fleets with failures", len(s.Drawings))
		}
		for _, d := range s.Drawings {
			if d.Shapes < 10 || d.Out > 1 || !chartstest.Starts(d.Texts, "100 %") || !chartstest.Starts(d.Texts, "age in years") {
				t.Errorf("at %d: %+v", width, d)
			}
		}
		if !strings.Contains(s.Tip, "watched at that age") {
			t.Errorf("the tooltip says %q", s.Tip)
		}
	}
}
