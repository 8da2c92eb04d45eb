package vary

import (
	"strings"
	"testing"

	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
)

func TestWhatAVariedPageSays(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		content sweep
		want    []string
	}{
		{"one input", variedSample(), []string{
			"care.response goes from 4 h to 168.9 h; the site file has 24 h.",
			"drives, purchase in EUR", "9 drives, 2 400 EUR",
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
			"Every value side by side", "At 18 TB", "Purchase<small>in EUR",
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
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			chartstest.CheckPage(t, func() page.Contents { return c.content.contents() }, c.want...)
			if bare := chartstest.Render(t, c.content.contents(), ""); !strings.Contains(bare, "<table") {
				t.Error("without the chart script the page lacks its tables")
			}
		})
	}
}

func TestVariedLabelsAreText(t *testing.T) {
	t.Parallel()
	for _, v := range []sweep{madeHostile(variedSample()), madeHostile(wordsSample()), madeHostile(heatSample(2))} {
		chartstest.CheckNoMarkup(t, v.contents())
	}
}

func TestVariedPageInABrowser(t *testing.T) {
	t.Parallel()
	var pages []chartstest.PageCase
	for _, p := range []struct {
		name, tip string
		content   sweep
		drawings  int
	}{
		{"varied", "varied-loss", variedSample(), 3}, {"varied-words", "varied-loss", wordsSample(), 3}, {"varied-heat", "heat-1", heatSample(2), 2}, {"varied-heat-words", "heat-1", wordsHeatSample(), 2},
		{"varied-hostile", "varied-loss", madeHostile(variedSample()), 3}, {"varied-heat-hostile", "heat-1", madeHostile(heatSample(2)), 2},
	} {
		pages = append(pages, chartstest.PageCase{Name: p.name, Contents: p.content.contents(), Drawings: p.drawings, Shapes: 12, Texts: 5, TipOf: p.tip, Tip: "95 % interval"})
	}
	chartstest.CheckInBrowser(t, pages...)
}
