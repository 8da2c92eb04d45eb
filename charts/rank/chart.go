package rank

import (
	"fmt"
	"slices"
	"strings"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

// mostSwings bounds the inputs that a drawing shows.
const mostSwings = 12

// Symbols of the two ends of a range, and of the two shares of an input.
var (
	lowSymbol  = draw.Symbol{Shape: draw.Circle, Colour: draw.Teal, Hollow: true}
	highSymbol = draw.Symbol{Shape: draw.Circle, Colour: draw.Orange}
)

// swingChart shows the loss chance of a choice at the low and at the high of each
// input, the widest swing on top.
func (r ranking) swingChart(place int) draw.Chart {
	c := r.Choices[place]
	m := draw.MarkOf(place, c.Choice.Label)
	out := draw.Chart{ID: fmt.Sprintf("ranked-%d", m.Number), Title: m.Numbered() + ": chance of losing footage as each input moves"}
	if len(c.Inputs) == 0 {
		out.Absent = "No input bears on this choice."
		return out
	}
	heavy, light := weighed(c)
	inputs := heavy[:min(mostSwings, len(heavy))]
	all := []estimate.Estimate{c.Likely}
	for _, in := range inputs {
		all = append(all, in.AtLow, in.AtHigh)
	}
	axis := draw.NewLogAxis(all)
	var series []echarts.SingleSeries
	if draw.Drawable(c.Likely) {
		series = append(series, draw.VerticalLine("as in the site file", draw.Log10(c.Likely.Value), 0))
	}
	var names, alt []string
	for row, in := range inputs {
		names = append(names, rowName(in))
		series = append(series, joined(in.AtLow, in.AtHigh, axis, row))
		for _, end := range []struct {
			e      estimate.Estimate
			text   string
			symbol draw.Symbol
		}{{in.AtLow, in.Low, lowSymbol}, {in.AtHigh, in.High, highSymbol}} {
			tip := []string{m.Numbered(), rankedName(in) + " " + label.OneLine(end.text), figure.Odds(end.e) + " within " + page.ServiceLife(r.Site), "95 % interval: " + figure.OddsInterval(end.e)}
			series = append(series, draw.RowEstimate{Name: rankedName(in), Symbol: end.symbol, Estimate: end.e, Row: row, Tip: tip}.Series(axis)...)
		}
		alt = append(alt, fmt.Sprintf("%s: %s at %s, %s at %s", rankedName(in), figure.Odds(in.AtLow), label.OneLine(in.Low), figure.Odds(in.AtHigh), label.OneLine(in.High)))
	}
	setHeights(&out, len(names))
	out.Options = draw.Options(axis.Horizontal("chance of a loss within "+page.ServiceLife(r.Site)), draw.RowAxis(names), draw.RowMargins(), series...)
	out.Key = rankedKey(inputs, "with the input at its low", "with the input at its high")
	out.Read = "The further apart the two points of a row, the more the input matters; the upright line is the chance with every input at its likely value, " + page.OddsText(c.Likely) + ". Lines through points are 95 % intervals (not seen where narrower than the point). The scale is one of powers of ten."
	out.Alt = "Chance of losing footage at the low and the high of each input. " + strings.Join(alt, "; ") + "."
	if light != "" {
		out.Notes = append(out.Notes, light)
	}
	if n := len(heavy) - len(inputs); n > 0 {
		out.Notes = append(out.Notes, fmt.Sprintf("Not drawn, as they move the chance less: %s. The table has them.", figure.Count(n, "input", "inputs")))
	}
	return out
}

// weighed returns the inputs that move the chance of a choice, the first always, and a
// sentence on those that do by next to nothing; empty where there are none.
func weighed(c study.RankedChoice) (heavy []study.RankedInput, light string) {
	var names []string
	for i, in := range c.Inputs {
		if i > 0 && in.Slight() {
			names = append(names, spoken(in))
			continue
		}
		heavy = append(heavy, in)
	}
	if names == nil {
		return heavy, ""
	}
	return heavy, fmt.Sprintf("Left out, as they move the chance by less than 5\u00a0%%: %s.", figure.List(names))
}

// setHeights gives a chart the height that so many rows take, on a page and on paper.
func setHeights(c *draw.Chart, rows int) {
	c.Rows, c.Height = rows, 62*rows+90 // four lines of name on a phone
	c.Print = draw.RowsOnPaper(c.Height, 30*rows+90)
}

// rankedKey explains the two points of a row, and the star of its name.
func rankedKey(inputs []study.RankedInput, hollow, filled string) []draw.KeyEntry {
	key := []draw.KeyEntry{{Drawing: lowSymbol.Drawing(), Text: hollow}, {Drawing: highSymbol.Drawing(), Text: filled}}
	if slices.ContainsFunc(inputs, func(in study.RankedInput) bool { return !in.Given }) {
		key = append(key, draw.KeyEntry{Drawing: "<b>*</b>", Text: "default range, a guess"})
	}
	return key
}

// rankedName returns what the input is called, as words have room for.
func rankedName(in study.RankedInput) string { return named(in, 80) }

// named returns what the input is called, cut to so many letters, or else the end of its
// path.
func named(in study.RankedInput, room int) string {
	if in.Called == "" {
		return pathEnd(in.Path, room)
	}
	return label.Cut(in.Called, room)
}

// spoken returns the input as a sentence has it.
func spoken(in study.RankedInput) string {
	if in.Called == "" {
		return rankedName(in)
	}
	return "the " + rankedName(in)
}

// spokenPath returns it with the path by which it can be given.
func spokenPath(in study.RankedInput) string {
	if in.Called == "" {
		return rankedName(in)
	}
	return fmt.Sprintf("%s (%s)", spoken(in), label.OneLine(in.Path))
}

// rowName returns the input over its range, as a row has room for.
func rowName(in study.RankedInput) string {
	const pathRoom, nameRoom, endRoom = 30, 60, 11
	whole := func(text string) string { return strings.ReplaceAll(text, " ", "\u00a0") }
	end := func(text string) string { return whole(label.Cut(text, endRoom)) }
	name := named(in, nameRoom)
	if in.Called == "" {
		if name = pathEnd(in.Path, pathRoom); len(name) > pathRoom*3/4 {
			name = whole(name) // broken where a line is full, which takes the fewest lines
		}
	}
	if !in.Given {
		name += "\u00a0*"
	}
	return fmt.Sprintf("%s\n(%s … %s)", name, end(in.Low), end(in.High))
}

// pathEnd cuts a path to so many letters, from its beginning, which says less than
// its end, and to whole keys where that leaves the better part.
func pathEnd(path string, room int) string {
	all := []rune(label.OneLine(path))
	if len(all) <= room {
		return string(all)
	}
	end := all[len(all)-room+1:]
	if dot := slices.Index(end, '.'); dot >= 0 && dot < room/2 {
		end = end[dot+1:]
	}
	return "…" + string(end)
}

// joined returns the line between the two points of a row.
func joined(a, b estimate.Estimate, axis draw.LogAxis, row int) echarts.SingleSeries {
	return draw.Joined.Series("range", draw.Muted, draw.Point{Value: []any{axis.Place(a), axis.Place(b), row, 0}})
}
