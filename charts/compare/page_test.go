package compare

import (
	"bytes"
	"encoding/json"
	"math"
	"os"
	"path/filepath"
	"strings"
	"testing"

	"arrayodds/array/site"
	"arrayodds/charts/chartstest"
	"arrayodds/sim"
	"arrayodds/sim/estimate"
)

// render is the page of r, as text. Without the real script a stand-in takes
// its place, so that the words are tested wherever Go runs.
func render(t *testing.T, r report, script string) string {
	t.Helper()
	return chartstest.Render(t, r.contents(), script)
}

// sampleReport is the invented comparison as its page draws it.
func sampleReport() report { return report{chartstest.Sample()} }

// The options behind each chart are golden: testdata holds them as data.
func TestChartOptions(t *testing.T) {
	for _, c := range sampleReport().charts() {
		t.Run(c.ID, func(t *testing.T) {
			var got bytes.Buffer
			if err := json.Indent(&got, c.Options, "", " "); err != nil {
				t.Fatal(err)
			}
			got.WriteByte('\n')
			golden := filepath.Join("testdata", c.ID+".json")
			if *chartstest.Update {
				if err := os.WriteFile(golden, got.Bytes(), 0o644); err != nil {
					t.Fatal(err)
				}
			}
			want, err := os.ReadFile(golden)
			if err != nil {
				t.Fatal(err)
			}
			if !bytes.Equal(got.Bytes(), want) {
				t.Errorf("the options of chart %q changed; look at them, then go test ./charts -update\n%s", c.ID, chartstest.FirstDifference(got.String(), string(want)))
			}
		})
	}
}

func TestPageIsTheSameEveryTime(t *testing.T) {
	first, again := render(t, sampleReport(), chartstest.StandIn), render(t, sampleReport(), chartstest.StandIn)
	if first != again {
		t.Error("two pages of one report differ")
	}
}

func TestPageWithoutScriptSaysSo(t *testing.T) {
	text := render(t, sampleReport(), "")
	text = strings.ReplaceAll(text, "\u00a0", " ")
	for _, want := range []string{"The charts are missing.", "make setup", "All figures", "Chance of losing footage, year by year", "1 in 2.4 million"} {
		if !strings.Contains(strings.ReplaceAll(text, "\u202f", " "), want) {
			t.Errorf("the page without the script does not say %q", want)
		}
	}
	if strings.Contains(text, "<script") || strings.Contains(text, `class="drawing"`) {
		t.Error("the page without the script still has scripts or empty drawings")
	}
	if strings.Contains(render(t, sampleReport(), chartstest.StandIn), "The charts are missing.") {
		t.Error("the page with a script says that it is missing")
	}
}

func TestPageLoadsNothing(t *testing.T) {
	text := render(t, sampleReport(), chartstest.StandIn)
	if found := chartstest.Loads.FindString(text); found != "" {
		t.Errorf("the page loads something: %s", found)
	}
	if !strings.Contains(text, `content="default-src 'none'`) {
		t.Error("the page does not forbid loading")
	}
}

func hostileReport() report {
	r := sampleReport()
	r.Site.Name = chartstest.Hostile
	for i := range r.Site.Cameras {
		r.Site.Cameras[i].Label = chartstest.Hostile
	}
	for i := range r.Outcomes {
		r.Outcomes[i].Choice.Label = chartstest.Hostile
		r.Outcomes[i].Choice.Drive.Label = chartstest.Hostile
		r.Outcomes[i].Result.Warnings = []string{chartstest.Hostile}
	}
	r.Assumptions = []site.Assumption{{Path: chartstest.Hostile, Text: chartstest.Hostile}}
	return r
}

func TestLabelsAreText(t *testing.T) {
	r := hostileReport()
	text := render(t, r, chartstest.StandIn)
	if n := strings.Count(text, "<script"); n != 2+len(r.charts()) {
		t.Errorf("the page has %d script elements, want the chart script, the page's own and one for each of %d charts", n, len(r.charts()))
	}
	chartstest.NoMarkup(t, text)
	if !strings.Contains(text, "&lt;script&gt;window.hit=1&lt;/script&gt;") {
		t.Error("the label is not shown as text")
	}
	for _, c := range r.charts() {
		var options any
		if err := json.Unmarshal(c.Options, &options); err != nil {
			t.Errorf("options of %q: %v", c.ID, err)
		}
		if bytes.ContainsAny(c.Options, "<>&") {
			t.Errorf("options of %q hold markup", c.ID)
		}
	}
}

func TestChartScriptCannotEndItsElement(t *testing.T) {
	text := render(t, sampleReport(), `var a = "</script><b>"; var b = "</SCRIPT>"`)
	if strings.Contains(text, "</script><b>") || strings.Contains(text, "</SCRIPT>") {
		t.Error("a script that holds </script> ends its element")
	}
}

func TestNoCamerasNoPrices(t *testing.T) {
	r := sampleReport()
	r.Site.Cameras = nil
	for i := range r.Outcomes {
		o := &r.Outcomes[i]
		o.Sizing.Purchase, o.Choice.Drive.Price = math.NaN(), math.NaN()
		o.Sizing.Retention, o.Sizing.Held, o.Sizing.Meets = math.NaN(), nil, true
		o.Result.HasCameras = false
	}
	text := strings.ReplaceAll(render(t, r, chartstest.StandIn), "\u202f", " ")
	for _, want := range []string{
		"names no cameras, so the choices are compared by capacity alone",
		"The site file gives no prices, so risk cannot be set against cost",
		"Counted in drives",
		"This rests on the cameras",
		"The camera-days rest on cameras",
		"more drive", "fewest drives",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if strings.Contains(text, "NaN") {
		t.Error("the page shows NaN")
	}
}

func TestWhatThePageSays(t *testing.T) {
	text := strings.ReplaceAll(render(t, sampleReport(), chartstest.StandIn), "\u202f", " ")
	for _, want := range []string{
		"always exposed",
		"does not meet the demand",
		"Warning: three trials carry half of the loss chance",
		"budget used up",
		"RAID is no backup",
		"no holidays",
		"local law on retention and privacy",
		"qualified people",
		"<em>default</em>",
		"1 in 2.4 million over 5 years",
	} {
		if !strings.Contains(text, want) {
			t.Errorf("the page does not say %q", want)
		}
	}
	if n := strings.Count(text, "Warning: three trials"); n < 6 {
		t.Errorf("the warning stands at %d places, want it with the summary and every table of its figures", n)
	}
	plain := sampleReport()
	plain.Plain = true
	plain.Outcomes[0].Result.LossChance = estimate.Estimate{High: 3e-4, RelativeError: 1}
	text = strings.ReplaceAll(render(t, plain, chartstest.StandIn), "\u202f", " ")
	for _, want := range []string{"none seen, at most 1 in 3 300", "life by life, without branching"} {
		if !strings.Contains(text, want) {
			t.Errorf("the page of a plain run does not say %q", want)
		}
	}
}

// TestRecordInterval: what the record leaves open is told apart from the
// simulation's interval, in words and in the table, and no finer than it is
// known.
func TestRecordInterval(t *testing.T) {
	r := sampleReport()
	for _, c := range []struct {
		span sim.Span
		want string
	}{
		{sim.Span{Low: 1.0123e-5, High: 4.0321e-4}, "1 in 99 000 to 1 in 2 500"},
		{sim.Span{Low: 1.4169e-4, High: 1.4188e-4}, "by less than 10 %"},
	} {
		r.Outcomes[0].Result.Record = &c.span
		page := strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(render(t, r, ""))
		if got := strings.Count(page, c.want); got < 2 {
			t.Errorf("%+v: %q is on the page %d times, want it in the summary and in the table", c.span, c.want, got)
		}
		if !strings.Contains(page, "Left open by the record") {
			t.Error("the table has no column for it")
		}
	}
}
