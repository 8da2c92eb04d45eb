package charts

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/charts/figure"
	"arrayodds/sim"
	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// mostSwings bounds the inputs that a drawing shows.
const mostSwings = 12

// Colours of the two ends of a range.
const (
	lowColour  = 0 // of palette
	highColour = 1
)

// swingChart shows the loss chance of a choice at the low and at the high of each
// input, the widest swing on top.
func (r Ranked) swingChart(place int) chart {
	c := r.Choices[place]
	m := markOf(place, c.Choice.Label)
	out := chart{ID: fmt.Sprintf("ranked-%d", m.Number), Title: m.numbered() + ": chance of losing footage as each input moves", Rows: true}
	if len(c.Inputs) == 0 {
		out.Absent = "No input bears on this choice."
		return out
	}
	inputs := c.Inputs[:min(mostSwings, len(c.Inputs))]
	all := []sim.Estimate{c.Likely}
	for _, in := range inputs {
		all = append(all, in.AtLow, in.AtHigh)
	}
	axis := logAxisFor(all)
	var series []echarts.SingleSeries
	if drawable(c.Likely) {
		series = append(series, upright(decades(c.Likely.Value), 0))
	}
	var names, alt []string
	guessed := false
	for row, in := range inputs {
		guessed = guessed || !in.Given
		names = append(names, in.rowName())
		series = append(series, joined(in.AtLow, in.AtHigh, axis, row))
		for _, end := range []struct {
			e      sim.Estimate
			colour int
			text   string
			hollow bool
		}{{in.AtLow, lowColour, in.Low, true}, {in.AtHigh, highColour, in.High, false}} {
			tip := []string{m.numbered(), short(in.Path) + " " + oneLine(end.text), figure.Odds(end.e) + " within " + years(r.years()), "95 % interval: " + figure.OddsInterval(end.e)}
			series = append(series, acrossRow(short(in.Path), "path://"+shapes[0], palette[end.colour], end.hollow, end.e, axis, row, 0, "", tip)...)
		}
		alt = append(alt, fmt.Sprintf("%s: %s at %s, %s at %s", short(in.Path), figure.Odds(in.AtLow), oneLine(in.Low), figure.Odds(in.AtHigh), oneLine(in.High)))
	}
	out.Height = 52*len(names) + 90
	out.Print = max(30*len(names)+90, min(out.Height*5/6, 780))
	out.Options = options(axis.horizontal("chance of a loss within "+years(r.years())), rowAxis(names), rowGrid(), series...)
	out.Key = []keyEntry{{drawing("path://"+shapes[0], palette[lowColour], true), "with the input at its low"}, {drawing("path://"+shapes[0], palette[highColour], false), "with the input at its high"}}
	out.Read = "The further apart the two points of a row, the more the input matters; the upright line is the chance with every input at its likely value, " + figure.Odds(c.Likely) + ". Lines through points are 95 % intervals (not seen where narrower than the point). The scale is one of powers of ten."
	if guessed {
		out.Read += " A star marks a default range, which is a guess."
	}
	out.Alt = "Chance of losing footage at the low and the high of each input. " + strings.Join(alt, "; ") + "."
	if n := len(c.Inputs) - len(inputs); n > 0 {
		out.Notes = append(out.Notes, fmt.Sprintf("Not drawn, as they move the chance less: %s. The table has them.", count(n, "input", "inputs")))
	}
	return out
}

// rowName is the input with its range, as a row has room for.
func (in RankedInput) rowName() string {
	const pathRoom, endRoom = 34, 12
	star := ""
	if !in.Given {
		star = " *"
	}
	path := []rune(oneLine(in.Path))
	if len(path) > pathRoom { // its end says more than its beginning
		path = append([]rune("…"), path[len(path)-pathRoom+1:]...)
	}
	return fmt.Sprintf("%s%s (%s … %s)", string(path), star, cutTo(in.Low, endRoom), cutTo(in.High, endRoom))
}

// joined is the line between the two points of a row.
func joined(a, b sim.Estimate, axis logAxis, row int) echarts.SingleSeries {
	at := func(e sim.Estimate) float64 {
		if !drawable(e) {
			return float64(axis.Min)
		}
		return whiskerOf(e).at
	}
	return drawn("range", "joined", muted, []int{0, 1}, []int{2}, point{Value: []any{at(a), at(b), row, 0}})
}

// sharesChart shows the shares of variance of a choice; false where there are none.
func (r Ranked) sharesChart(place int) (chart, bool) {
	c := r.Choices[place]
	m := markOf(place, c.Choice.Label)
	var names, alt []string
	var series []echarts.SingleSeries
	for _, in := range c.Inputs {
		if in.First == nil || in.Total == nil || len(names) == mostSwings {
			continue
		}
		row := len(names)
		names = append(names, in.rowName())
		for _, share := range []struct {
			e      sim.Estimate
			colour int
			what   string
			hollow bool
			down   int
		}{{*in.First, lowColour, "by itself", true, -7}, {*in.Total, highColour, "with all that it does together with others", false, 7}} {
			tip := []string{m.numbered(), short(in.Path), fmt.Sprintf("%s of the variance %s", shareWords(share.e), share.what), fmt.Sprintf("95 %% interval: %s to %s", percent(share.e.Low), percent(share.e.High))}
			at := 100 * clamped(share.e.Value)
			series = append(series, drawn("share", "across", palette[share.colour], []int{0, 1}, []int{2},
				point{Value: []any{tidy(100 * clamped(share.e.Low)), tidy(100 * clamped(share.e.High)), row, share.down, 0}, Tip: tip}))
			dot := points("share", "path://"+shapes[0], palette[share.colour], share.hollow, point{Value: []any{tidy(at), row}, Tip: tip, Offset: []int{0, share.down}})
			dot.SymbolSize = 10
			series = append(series, dot)
		}
		alt = append(alt, fmt.Sprintf("%s: %s by itself, %s in all", short(in.Path), shareWords(*in.First), shareWords(*in.Total)))
	}
	if len(names) == 0 {
		return chart{}, false
	}
	x := opts.XAxis{Type: "value", Name: "share of the variance, %", NameLocation: "middle", NameGap: 34, Min: 0, Max: 100,
		AxisLabel: tickLabels("plain"), SplitLine: gridLines(), AxisLine: axisLine()}
	out := chart{ID: fmt.Sprintf("shares-%d", m.Number), Title: m.numbered() + ": how much of the spread comes of each input", Rows: true, Height: 46*len(names) + 90}
	out.Print = max(28*len(names)+90, min(out.Height*5/6, 780))
	out.Options = options(x, rowAxis(names), rowGrid(), series...)
	out.Key = []keyEntry{{drawing("path://"+shapes[0], palette[lowColour], true), "by itself (first share)"}, {drawing("path://"+shapes[0], palette[highColour], false), "with all that it does together with others (total share)"}}
	out.Read = "All inputs move at once; a point is the share of the variance of the logarithm of the loss chance that comes of an input, the line through it its 95 % interval."
	out.Alt = "Shares of variance. " + strings.Join(alt, "; ") + "."
	return out, true
}

func clamped(x float64) float64 { return math.Min(math.Max(x, 0), 1) }

// percent is a share in whole per cent.
func percent(x float64) string { return figure.Whole(math.Round(100*clamped(x))) + " %" }

func shareWords(e sim.Estimate) string { return percent(e.Value) }
