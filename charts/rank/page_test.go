package rank

import (
	"fmt"
	"math"
	"strings"
	"testing"

	"arrayodds/array/site"
	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// rankedSample is an invented ranking of so many choices, with 16 inputs each: given
// and default ranges, a chance of 0 at one end, a swing without an end.
func rankedSample(choices int, thorough bool) ranking {
	s := chartstest.Sample()
	r := ranking{study.Ranking{Site: s.Site, Seed: 1, Accuracy: 0.05, Thorough: thorough, Assumptions: s.Assumptions, Notes: []string{"A note on how it was done."}}}
	for k := range choices {
		c := study.RankedChoice{Choice: s.Outcomes[k].Choice, Likely: chartstest.Around(0.3*math.Pow(10, -float64(k)*1.3), 0.03)}
		for i := range 16 {
			swing := 400 / float64(1+i*i)
			in := study.RankedInput{Path: fmt.Sprintf("care.input_%d", i), Low: "12 h", Likely: "24 h", High: "96 h", Given: i%3 == 0,
				AtLow: chartstest.Around(c.Likely.Value/math.Sqrt(1+swing), 0.04), AtHigh: chartstest.Around(math.Min(0.9, c.Likely.Value*math.Sqrt(1+swing)), 0.04), Swing: chartstest.Around(1+swing, 0.02)}
			if !in.Given {
				in.Range = "half to twice, a guess"
			}
			switch i {
			case 0:
				in.Path = "choices.8 x 12 TB, double parity and a hot spare.care.response.lognormal.median"
				in.High = "lognormal: half within 36 h, nine in ten within 96 h"
			case 2:
				in.AtLow, in.Swing = estimate.Estimate{}, estimate.Estimate{Value: math.Inf(1), Low: 1, High: math.Inf(1)}
			}
			if thorough && i < 14 {
				first, total := estimate.Estimate{Value: 0.5 / float64(1+i), Low: 0.45/float64(1+i) - 0.01, High: 0.55 / float64(1+i)}, chartstest.Around(0.6/float64(1+i), 0.1)
				in.First, in.Total = &first, &total
			}
			c.Inputs = append(c.Inputs, in)
		}
		if thorough {
			c.Spread, c.Noise = estimate.Estimate{Value: c.Likely.Value, Low: c.Likely.Value / 20, High: math.Min(0.9, c.Likely.Value*20)}, 0.023
		}
		r.Choices = append(r.Choices, c)
	}
	return r
}

func hostileRanking() ranking {
	r := rankedSample(2, true)
	r.Site.Name = chartstest.Hostile
	for i := range r.Choices {
		r.Choices[i].Choice.Label = chartstest.Hostile
		for k := range r.Choices[i].Inputs {
			in := &r.Choices[i].Inputs[k]
			in.Path, in.Low, in.Likely, in.High, in.Range = chartstest.Hostile, chartstest.Hostile, chartstest.Hostile, chartstest.Hostile, chartstest.Hostile
		}
	}
	r.Notes, r.Assumptions = []string{chartstest.Hostile}, []site.Assumption{{Path: chartstest.Hostile, Text: chartstest.Hostile}}
	return r
}

func TestPathEnd(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		path string
		room int
		want string
	}{
		{"care.response", 34, "care.response"},
		{"choices.8 x 12 TB, double parity and a hot spare.care.response.lognormal.median", 34, "…care.response.lognormal.median"},
		{"choices.a label without any key behind it", 20, "…t any key behind it"},
		{"drives.0.life", 8, "…0.life"},
	} {
		if got := pathEnd(c.path, c.room); got != c.want {
			t.Errorf("pathEnd(%q, %d) = %q, want %q", c.path, c.room, got, c.want)
		}
		if got := []rune(pathEnd(c.path, c.room)); len(got) > c.room {
			t.Errorf("%q is longer than %d", string(got), c.room)
		}
	}
}

// The row with the largest total is on top, whatever its swing.
func TestSharesAreInOrder(t *testing.T) {
	t.Parallel()
	r := rankedSample(1, true)
	*r.Choices[0].Inputs[9].Total = chartstest.Around(0.8, 0.1)
	c, ok := r.sharesChart(0)
	if !ok || !strings.Contains(c.Alt, "Shares of variance. care.input_9: ") {
		t.Errorf("%v, %q", ok, c.Alt)
	}
}

func TestWhatARankedPageSays(t *testing.T) {
	t.Parallel()
	none := rankedSample(2, false)
	none.Choices[1].Inputs = nil
	nothing := rankedSample(1, false)
	nothing.Choices[0].Inputs = nil
	close := rankedSample(3, false)
	close.Choices[0].Inputs[1].Swing.High = 400
	close.Choices[1].Inputs = close.Choices[1].Inputs[2:]
	close.Choices[2].Inputs = close.Choices[2].Inputs[1:2]
	close.Choices[2].Inputs[0].Swing = estimate.Estimate{Value: 1.02, Low: 0.98, High: 1.06}
	weak := rankedSample(1, true)
	for i := range weak.Choices[0].Inputs[:14] {
		in := &weak.Choices[0].Inputs[i]
		*in.First, *in.Total = chartstest.Around(0.05, 0.1), chartstest.Around(0.02*float64(1+i), 0.1)
	}
	for _, c := range []struct {
		name    string
		content ranking
		want    []string
	}{
		{"thorough", rankedSample(3, true), []string{
			"16 inputs bear on the risk", "The site file gives the range of 6; those of the others are guesses.",
			"Find out first: choices.8 x 12 TB, double parity and a hot spare.care.response.lognormal.median. It moves every choice the most.",
			"from 12 h to lognormal: half within 36 h, nine in ten within 96 h, the chance of a loss goes from 1 in 67 to 90 in 100: a factor of 401 (392.9 to 409.1).",
			"With all inputs moving at once, nine in ten chances of a loss within 5 years lie between 1 in 67 and 90 in 100, half of them below 30 in 100.",
			"About 2 % of the variance is the simulation’s own noise.",
			"inputs act together", "Not drawn, as they move the chance less: 4 inputs.", "Not drawn, as their totals are smaller: 2 inputs.", "default range, a guess",
			"With every input at its likely value the chance of a loss is 30.0 in 100 (",
			"default range: half to twice, a guess", "no loss at one end", "A note on how it was done.",
			"RAID is no backup", "local law on retention and privacy", "A range that is too narrow makes an input look unimportant",
			"First share", "50 %", "44 % to 55 %",
		}},
		{"nine", rankedSample(9, false), []string{"The 8 safest choices are drawn; the tables have all.", "The range of choices.8 x 12 TB, double parity and a hot spare.care.response.lognormal.median is only a default, a guess: the first thing is to give a real one in the site file, as { low = ..., likely = ..., high = ... }."}},
		{"nothing bears on one", none, []string{"no input bears on it; the chance of a loss is 1 in 67 (", "No input bears on this choice."}},
		{"nothing bears", nothing, []string{"No input that could be uncertain bears on the risk."}},
		{"not beyond doubt", close, []string{
			"1 · 9 x 8 TB, no redundancy: find out first choices.8 x", "Not beyond doubt: care.input_1 and care.input_2 may matter as much.",
			"2 · 6 x 8 TB, striped: find out first care.input_2. From 12 h to 96 h, the chance of a loss goes from none to 13.5 in 100.",
			"Not beyond doubt: the interval holds a swing of nothing.",
			"The ranges of care.input_2 and care.input_1 are only defaults",
		}},
		{"little by itself", weak, []string{"The first shares come to about 70 % together; what they lack of 100 % is inputs acting together, and noise."}},
	} {
		if c.name == "nine" {
			for i := range c.content.Choices {
				c.content.Choices[i].Inputs[0].Given = false
			}
		}
		t.Run(c.name, func(t *testing.T) {
			t.Parallel()
			chartstest.CheckPage(t, func() page.Contents { return c.content.contents() }, c.want...)
		})
	}
	chartstest.CheckNoMarkup(t, hostileRanking().contents())
}

// Inputs are called by words, with the path below, and those that move next to nothing
// are one line.
func TestRankedNames(t *testing.T) {
	t.Parallel()
	r := rankedSample(1, false)
	c := &r.Choices[0]
	c.Inputs = c.Inputs[:4]
	for i, called := range []string{"time until a new drive is in", "yearly failure rate of the 18 TB drives", "common-cause events a year", "time between scrubs"} {
		c.Inputs[i].Called = called
	}
	c.Inputs[1].Path = "drives.18 TB.life.afr"
	c.Inputs[3].Swing = chartstest.Around(1.01, 0.01)
	text := chartstest.CheckPage(t, func() page.Contents { return r.contents() },
		"find out first the time until a new drive is in.", "yearly failure rate of the 18 TB drives",
		`<small class="path">drives.<wbr>18 TB.<wbr>life.<wbr>afr</small>`,
		"Left out, as they move the chance by less than 5 %: the time between scrubs.")
	if n := strings.Count(text, "time between scrubs"); n != 2 { // below the drawing and above the table
		t.Errorf("the input that moves nothing stands %d times", n)
	}
	if rows := chartstest.Decode(t, r.swingChart(0)).Y.Rows; len(rows) != 3 || !strings.HasPrefix(rows[1], "yearly failure rate of the 18 TB drives\u00a0*\n(") {
		t.Errorf("rows %q", rows)
	}
	// The first stays, however little it moves.
	c.Inputs = c.Inputs[3:]
	if heavy, light := weighed(*c); len(heavy) != 1 || light != "" {
		t.Errorf("%d inputs, %q", len(heavy), light)
	}
}

func TestRankedPageInABrowser(t *testing.T) {
	t.Parallel()
	var pages []chartstest.PageCase
	for _, p := range []struct {
		name    string
		content ranking
	}{{"ranked-hostile", hostileRanking()}, {"ranked", rankedSample(2, true)}} {
		pages = append(pages, chartstest.PageCase{Name: p.name, Contents: p.content.contents(), Drawings: 4, Shapes: 24, Texts: 12, TipOf: "ranked-1", Tip: "95 % interval"})
	}
	chartstest.CheckInBrowser(t, pages...)
}
