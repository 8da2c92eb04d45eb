package vary

import (
	"fmt"
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
)

func renderVaried(t *testing.T, v sweep, script string) string {
	t.Helper()
	return chartstest.Render(t, v.contents(), script)
}

// The options behind each chart are golden.
func TestVariedOptions(t *testing.T) {
	for _, c := range variedSample().charts() {
		chartstest.CheckGoldenOptions(t, c.ID+".json", c.Options)
	}
	for _, c := range wordsSample().charts()[:1] {
		chartstest.CheckGoldenOptions(t, "varied-rows.json", c.Options)
	}
	chartstest.CheckGoldenOptions(t, "heat-1.json", heatSample(2).charts()[0].Options)
}

func TestWhatAVariedPageSays(t *testing.T) {
	for _, c := range []struct {
		name    string
		content sweep
		want    []string
	}{
		{"one input", variedSample(), []string{
			"care.response goes from 4 h to 168.9 h; the site file has 24 h.",
			"At 4 h the safest is 4 · 10 x 8 TB, triple parity: no loss was found.",
			"The order changes beyond doubt: at ",
			"The interval of the ratio is 15.0 times narrower than two runs of their own would have given",
			"No figures for 3 · 8 x 12 TB, double parity and a hot spare at 4 h and 6.39 h: 14 drives, and the recorder has 12 bays.",
			"as no loss was found: 4 ·",
			"Break-even: a loss chance of 1 in 10 000 within 5 years", "7.2 h", "Riskier over the whole range",
			"Warning for 3 · 8 x 12 TB, double parity and a hot spare, at 168.9 h: three trials carry half",
			"The level line is the goal, a loss chance of 1 in 10 000 within 5 years; a ring on it", "A note on how it was done.", "RAID is no backup", "local law on retention and privacy", "qualified people",
			"All but care.response is held as the site file has it", "to a 95 % half-width of 5 %", "<em>default</em>",
		}},
		{"words", wordsSample(), []string{
			"choices.*.drive is set to 8 TB, 12 TB and 18 TB; in the site file it differs from choice to choice.",
			"Every value side by side", "At 18 TB",
		}},
		{"two inputs", heatSample(9), []string{
			"30 pairs of values for 9 choices", "Every pair of values, 30 a choice", "The maps of the 8 safest choices",
			"1 in 1 000", "known to worse than ±25 %", "A dash in a white cell, as no loss was found", "4 h with 5 %: 1 in 1 550 (1 in 1 610 to 1 in 1 486), does not hold the footage", "does not hold the footage", "as in the site file",
			"4 h with 1 %", "128 h with 5 %", "none: 14 drives, and the recorder has 12 bays",
		}},
		{"left out of the file", func() sweep {
			v := variedSample()
			v.Inputs[0].OwnText = "not given: default 24 h"
			v.BreakEven.Goal = `as safe as "x" as the site file has it`
			return v
		}(), []string{"the site file leaves it out: default 24 h", "Break-even: as safe as"}},
	} {
		text := renderVaried(t, c.content, chartstest.StandIn)
		for _, want := range c.want {
			if !strings.Contains(text, want) && !strings.Contains(text, strings.ReplaceAll(want, "'", "&#39;")) {
				t.Errorf("%s: the page does not say %q", c.name, want)
			}
		}
		for _, bad := range []string{"NaN", "Inf", "<nil>", "%!"} {
			if strings.Contains(text, bad) {
				t.Errorf("%s: the page holds %q", c.name, bad)
			}
		}
		if found := chartstest.Loads.FindString(text); found != "" {
			t.Errorf("%s: the page loads something: %s", c.name, found)
		}
		if text != renderVaried(t, c.content, chartstest.StandIn) {
			t.Errorf("%s: two pages differ", c.name)
		}
		bare := renderVaried(t, c.content, "")
		if !strings.Contains(bare, "The charts are missing.") || strings.Contains(bare, `class="drawing"`) || !strings.Contains(bare, "<table") {
			t.Errorf("%s: without the chart script it does not say so, or lacks its tables", c.name)
		}
	}
}

func TestVariedLabelsAreText(t *testing.T) {
	for _, v := range []sweep{madeHostile(variedSample()), madeHostile(wordsSample()), madeHostile(heatSample(2))} {
		text := renderVaried(t, v, chartstest.StandIn)
		chartstest.NoMarkup(t, text)
	}
}

func TestVariedPageInABrowser(t *testing.T) {
	ctx := chartstest.Browser(t)
	var wrong chartstest.Complaints
	wrong.Listen(t, ctx)
	for _, p := range []struct {
		name, tip string
		content   sweep
		drawings  int
	}{
		{"varied", "varied-loss", variedSample(), 3}, {"varied-words", "varied-loss", wordsSample(), 3}, {"varied-heat", "heat-1", heatSample(3), 3}, {"varied-heat-words", "heat-1", wordsHeatSample(), 2},
		{"varied-hostile", "varied-loss", madeHostile(variedSample()), 3}, {"varied-heat-hostile", "heat-1", madeHostile(heatSample(2)), 2},
	} {
		path := chartstest.KeepPage(t, p.name+".html", p.content.contents())
		for _, width := range []int64{390, 768, 1280} {
			t.Run(fmt.Sprintf("%s at %d", p.name, width), func(t *testing.T) {
				s := chartstest.OpenPage(t, ctx, path, width, p.tip)
				wrong.Check(t)
				s.Check(t, p.drawings, 12, 5)
				if !strings.Contains(s.Tip, "95 % interval") {
					t.Errorf("the tooltip says %q", s.Tip)
				}
			})
		}
	}
}
