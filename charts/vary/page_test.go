package vary

import (
	"strings"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

func TestWhatAVariedPageSays(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		name    string
		content sweep
		want    []string
	}{
		{"one input", variedSample(), []string{
			"care.response: from 4 h to 168.9 h; the site file has 24 h.",
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
			"choices.*.drive: 8 TB, 12 TB and 18 TB; in the site file it differs from choice to choice.",
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
		{"called by words", func() sweep {
			v := variedSample()
			v.Inputs[0].Called = "time until a new drive is in"
			v.Curves[1].Points[0].Groups, v.Curves[1].Points[0].Drives = 2, 12
			v.BreakEven.Rows[0].Words = "safer than that below it, riskier above"
			return v
		}(), []string{
			"The time until a new drive is in (care.response): from 4 h to 168.9 h", "time until a new drive is in, h", "All but the time until a new drive is in is held",
			"12 drives in 2 groups, 2 400 EUR", "The value of the time until a new drive is in at which", "Safer than that below it, riskier above",
		}},
		{"not touched", untouchedSample(variedSample()), []string{
			"1 · 9 x 8 TB, no redundancy: 49.0 in 100 at every value. The input does not bear on it.", "every value: 49.0 in 100 (",
		}},
		{"words, not touched", untouchedSample(wordsSample()), []string{"every value"}},
		{"two inputs, not touched", untouchedSample(heatSample(3)), []string{
			"1 · 9 x 8 TB, no redundancy: 1 in 1 000 at every pair of values. The inputs do not bear on it.", "every pair of values: 1 in 1 000 (",
		}},
		{"two inputs against", againstSample(), []string{
			"Held against 2 · 6 x 8 TB, striped, 1 · 9 x 8 TB, no redundancy is safer beyond doubt at 0 of 29 pairs of values and riskier at 29: from 2 to 2 times as likely to lose footage.",
			"Beside 6 x 8 TB, striped at the ends of both inputs", "held against", "as likely as in 6 x 8 TB, striped",
		}},
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

// untouchedSample is another sample in which no input bears on the first choice.
func untouchedSample(v sweep) sweep {
	v.Against = ""
	c := &v.Curves[0]
	for i, p := range c.Points {
		c.Points[i] = study.Point{Drives: 9, Groups: 1, Meets: true, Purchase: p.Purchase, Clip: p.Clip, Loss: c.Own, ToOwn: estimate.Exact(1), Apart: p.Apart, Against: unknownFigure}
	}
	return v
}

// againstSample has every choice but the second twice as risky as that, at every pair.
func againstSample() sweep {
	v := heatSample(3)
	v.Against = v.Curves[1].Choice.Label
	for i := range v.Curves {
		for k := range v.Curves[i].Points {
			if p := &v.Curves[i].Points[k]; i != 1 && p.Absent == "" {
				p.Against = chartstest.Around(2, 0.1)
			}
		}
	}
	return v
}

// A choice that no input bears on is a line below the drawing, and no map, curve or row of
// it.
func TestUntouchedIsNotDrawn(t *testing.T) {
	t.Parallel()
	v := untouchedSample(variedSample())
	own, loss := chartstest.Decode(t, v.variedChart(v.ownQuantity())), chartstest.Decode(t, v.variedChart(v.lossQuantity()))
	first := v.marks()[0].Numbered()
	for _, kind := range []string{"line", "scatter", "band"} {
		if len(own.All(kind, first))+len(loss.All(kind, first)) > 0 {
			t.Errorf("%s has a %s", first, kind)
		}
		if len(loss.All(kind, v.marks()[1].Numbered())) == 0 {
			t.Errorf("another choice has no %s", kind)
		}
	}
	if maps := untouchedSample(heatSample(3)).heatCharts(); len(maps) != 2 || maps[0].ID != "heat-2" {
		t.Errorf("%d maps", len(maps))
	}
	if maps := untouchedSample(heatSample(1)).heatCharts(); len(maps) != 1 || !strings.Contains(maps[0].Absent, "bear on none") {
		t.Errorf("%+v", maps)
	}
	if rows := untouchedSample(wordsSample()).sideBySide().Rows; len(rows) != 1+3*3 || rows[0].Cells[0].Main != "every value" {
		t.Errorf("%d rows, the first %+v", len(rows), rows[0])
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
	for i, p := range []struct {
		name, tip string
		content   sweep
		drawings  int
	}{
		{"varied-hostile", "varied-loss", madeHostile(variedSample()), 3}, {"varied", "varied-loss", variedSample(), 3},
		{"varied-heat-hostile", "heat-1", madeHostile(heatSample(2)), 2}, {"varied-heat", "heat-1", heatSample(2), 2},
		{"varied-words", "varied-loss", wordsSample(), 3}, {"varied-heat-words", "heat-1", wordsHeatSample(), 2},
	} {
		if i > 2 && !thorough.Asked() {
			continue
		}
		pages = append(pages, chartstest.PageCase{Name: p.name, Contents: p.content.contents(), Drawings: p.drawings, Shapes: 12, Texts: 5, TipOf: p.tip, Tip: "95 % interval"})
	}
	chartstest.CheckInBrowser(t, pages...)
}
