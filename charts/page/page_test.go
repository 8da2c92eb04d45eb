package page_test

import (
	"bytes"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
)

// forecast is what a page that is made up for this test has to say.
type forecast struct {
	page.Page
	Days []string
}

func newForecast(body string, charts ...draw.Chart) *forecast {
	return &forecast{Page: page.Page{Template: page.Template(`{{template "head" .}}` + body + `{{template "charts" .}}{{template "scripts" .}}`)(),
		Title: page.SiteTitle("Harbour"), Kind: "weather", Charts: charts}, Days: []string{"fair", "foul"}}
}

func sun() draw.Chart {
	return draw.Chart{ID: "sun", Title: "Hours of sun", Height: 300, Alt: "Eight hours.",
		Options: draw.Options(draw.XAxis("days", 30, draw.PlainTicks), draw.YAxis("hours", draw.PlainTicks), draw.Margins())}
}

// A page is a template and a struct that embeds a Page.
func TestWrite(t *testing.T) {
	t.Parallel()
	text := chartstest.CheckPage(t, func() page.Contents { return newForecast("{{range .Days}}<p>{{.}}</p>{{end}}", sun()) },
		"<title>Harbour: weather</title>", "<p>fair</p><p>foul</p>", "Hours of sun", `id="options-sun"`, `data-print="270"`)
	if n := strings.Count(text, "<script"); n != 3 {
		t.Errorf("%d script elements, want the chart script, the options and the script that draws", n)
	}
	bare := chartstest.Render(t, newForecast("", sun()), "")
	if strings.Contains(bare, "<script") || !strings.Contains(bare, "Eight hours.") {
		t.Error("without the chart script there are scripts, or the drawing is not said in words")
	}
	absent := sun()
	absent.Absent = "It is night."
	if text := chartstest.Render(t, newForecast("", absent), chartstest.StandIn); strings.Contains(text, "options-sun") || !strings.Contains(text, "It is night.") {
		t.Error("an absent drawing has options, or it is not said why it is absent")
	}
}

func TestNothingIsWrittenOfAPageThatFails(t *testing.T) {
	t.Parallel()
	var b bytes.Buffer
	if err := page.Write(&b, newForecast("{{index .Days 9}}")); err == nil || !strings.Contains(err.Error(), "index out of range: 9") || b.Len() > 0 {
		t.Errorf("%d bytes were written, with the error %v", b.Len(), err)
	}
}

func TestChartScriptCannotEndItsElement(t *testing.T) {
	t.Parallel()
	text := chartstest.Render(t, newForecast("", sun()), `var a = "</script><b>"; var b = "</SCRIPT>"`)
	if strings.Contains(text, "</script><b>") || strings.Contains(text, "</SCRIPT>") {
		t.Error("a script that holds </script> ends its element")
	}
}

func TestLeast(t *testing.T) {
	t.Parallel()
	keys := []float64{3, 1, 2, 1, math.Inf(1)}
	key := func(i int) float64 { return keys[i] }
	for most, want := range map[int][]int{9: {0, 1, 2, 3, 4}, 3: {1, 2, 3}, 1: {1}} {
		if got := page.Least(len(keys), most, key); !slices.Equal(got, want) {
			t.Errorf("of the %d least: %v, want %v", most, got, want)
		}
	}
}

func TestCells(t *testing.T) {
	t.Parallel()
	unknown, one := estimate.None(), estimate.Estimate{Value: 3, Low: 3, High: 3}
	rate := estimate.Estimate{Value: 0.00131, Low: 0.00125, High: 0.00137}
	for _, c := range []struct {
		what string
		got  page.Cell
		want string
	}{
		{"an estimate", page.EstimateCell(rate), "0.00131 (0.001250 to 0.001370)"},
		{"no estimate", page.EstimateCell(unknown), "not known ()"},
		{"a chance", page.ChanceCell(rate), "1 in 760 (1 in 800 to 1 in 729; 0.00131)"},
		{"no chance", page.ChanceCell(estimate.Estimate{}), "none ()"},
		{"a chance not seen", page.ChanceCell(estimate.Estimate{High: 3e-4}), "not seen: at most 1 in 3 300 (0 to 1 in 3 300)"},
		{"a quantile", page.QuantileCell(one), "3 (the interval holds this number alone)"},
		{"a count", page.CountCell(one, 100), "300 (the interval holds this number alone)"},
		{"a wider count", page.CountCell(estimate.Estimate{Value: 3, Low: 2, High: 4}, 1), "3 (2 to 4)"},
		{"a ratio", page.RatioCell(estimate.Estimate{Value: 2, Low: 1.9, High: 2.1}), "2.0 (1.90 to 2.10)"},
	} {
		if got := strings.NewReplacer("\u00a0", " ", "\u202f", " ").Replace(fmt.Sprintf("%s (%s)", c.got.Main, c.got.Sub)); got != c.want {
			t.Errorf("%s is %q, want %q", c.what, got, c.want)
		}
	}
	if got := page.ChanceCell(rate).Main; strings.Contains(got, " ") {
		t.Errorf("%q breaks within a number", got)
	}
}

// A path breaks behind its dots, and what stands in it is text.
func TestPathHTML(t *testing.T) {
	t.Parallel()
	if got, want := string(page.PathHTML("drives.<b>8 TB</b>.life.afr")), "drives.<wbr>&lt;b&gt;8 TB&lt;/b&gt;.<wbr>life.<wbr>afr"; got != want {
		t.Errorf("%q, want %q", got, want)
	}
}
