package vary

import (
	"fmt"
	"math"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// Signs on a cell, as the page script inputs.js reads them.
const (
	hatchedCell = 1 << iota // vague
	absentCell
	noneCell
	shortCell // the demand is not met
)

// heatCharts draws a map for each choice, all in one scale of colours.
func (v sweep) heatCharts() []draw.Chart {
	low, high, ok := v.span()
	if !ok {
		none := draw.Chart{ID: "heat", Title: "Chance of losing footage within " + page.ServiceLife(v.Site), Absent: "There is no figure to draw.", Notes: v.untouched()}
		if len(none.Notes) == len(v.Curves) {
			none.Absent = "Nothing is drawn: the inputs bear on none of the choices."
		}
		return []draw.Chart{none}
	}
	scale := heatScaleFor(low, high)
	levels := contourLevels(low, high)
	var all []draw.Chart
	for _, place := range v.shown() {
		all = append(all, v.heatChart(place, scale, levels))
	}
	all[0].Notes = append(all[0].Notes, v.untouched()...)
	if len(v.Curves) > len(all)+len(v.untouched()) {
		all[0].Notes = append(all[0].Notes, fmt.Sprintf("The maps of the %d safest choices, as the site file has them, are drawn; the tables have all.", len(all)))
	}
	q := v.lossQuantity()
	q.sign = "A dash in a white cell"
	all[0].Notes = append(all[0].Notes, v.leftOut(q)...)
	all[0].Notes = append(all[0].Notes, v.warningNotes()...)
	return all
}

func (v sweep) heatChart(place int, scale heatScale, levels []float64) draw.Chart {
	m, curve := v.marks()[place], v.Curves[place]
	across, up := scaleOf(v.Inputs[0]), scaleOf(v.Inputs[1])
	xs, ys := across.places(), up.places()
	left, bottom := bounds(xs), bounds(ys)
	var cells []draw.Point
	signs := 0
	for j := range ys {
		for i := range xs {
			at := j*len(xs) + i
			p := curve.Points[at]
			colour, sign := draw.Paper, 0
			switch {
			case p.Absent != "" || !draw.Known(p.Loss):
				sign = absentCell
			case p.Loss.Value == 0:
				sign = noneCell
			default:
				colour = scale.colour(draw.Log10(p.Loss.Value))
				if vague(p) {
					sign = hatchedCell
				}
			}
			if p.Absent == "" && !p.Meets {
				sign |= shortCell
			}
			signs |= sign
			cells = append(cells, draw.Point{Value: []any{left[i], left[i+1], bottom[j], bottom[j+1], sign}, Tip: v.cellTip(m, at, p),
				ItemStyle: &opts.ItemStyle{Color: colour}})
		}
	}
	series := []echarts.SingleSeries{draw.Cell.Series("loss", draw.Ink, cells...)}
	if v.Inputs[0].Values != nil && v.Inputs[1].Values != nil {
		for _, l := range levels {
			series = append(series, contourSeries(oneIn(l), draw.ContourLines(xs, ys, func(i, j int) float64 {
				p := curve.Points[j*len(xs)+i]
				if p.Absent != "" || !draw.Drawable(p.Loss) {
					return math.NaN()
				}
				return draw.Log10(p.Loss.Value)
			}, l))...)
		}
	}
	ownX, isX := across.own()
	ownY, isY := up.own()
	if isX && isY {
		own := ownSymbol.Series("as in the site file", draw.SymbolSize, draw.Point{Value: []any{ownX, ownY},
			Tip: []string{m.Numbered(), "as in the site file", figure.Odds(curve.Own) + " within " + page.ServiceLife(v.Site), "95 % interval: " + figure.OddsInterval(curve.Own)}})
		series = append(series, own)
	}
	c := draw.Chart{ID: fmt.Sprintf("heat-%d", m.Number), Title: fmt.Sprintf("%s: chance of losing footage within %s", m.Numbered(), page.ServiceLife(v.Site)),
		Height: 420, Print: 330, Key: scale.key(signs, isX && isY)}
	c.Options = draw.Options(across.horizontal(left[0], left[len(left)-1]), up.vertical(bottom[0], bottom[len(bottom)-1]),
		opts.Grid{Left: up.room(), Right: "20", Top: "36", Bottom: "54"}, series...)
	c.Read = "The darker, the likelier a loss; one scale of colours serves all maps."
	if len(series) > 1 && len(levels) > 0 && v.Inputs[0].Values != nil && v.Inputs[1].Values != nil {
		c.Read += " Along a line the chance is the same."
	}
	c.Alt = fmt.Sprintf("Map of the chance of losing footage of %s over %s and %s. %s", m.Numbered(), label.Short(called(v.Inputs[0])), label.Short(called(v.Inputs[1])), v.ranges()[place])
	return c
}

func (v sweep) cellTip(m draw.Mark, at int, p study.Point) []string {
	n := len(v.Inputs[0].Texts)
	tip := []string{m.Numbered(), label.Short(called(v.Inputs[0])) + ": " + label.OneLine(v.Inputs[0].Texts[at%n]), label.Short(called(v.Inputs[1])) + ": " + label.OneLine(v.Inputs[1].Texts[at/n])}
	if p.Absent != "" {
		return append(tip, label.OneLine(p.Absent))
	}
	if !draw.Known(p.Loss) {
		return append(tip, "not known")
	}
	tip = append(tip, figure.Odds(p.Loss)+" within "+page.ServiceLife(v.Site), "95 % interval: "+figure.OddsInterval(p.Loss))
	if draw.Known(p.Against) {
		tip = append(tip, timesText(p.Against)+" times as likely as in "+label.Short(v.Against))
	}
	tip = append(tip, figure.Drives(p.Drives, p.Groups))
	if !p.Meets {
		tip = append(tip, "does not hold the footage")
	}
	return tip
}

// places returns where the values of an input lie.
func (s inputScale) places() []float64 {
	at := make([]float64, len(s.Texts))
	for i := range at {
		at[i] = draw.Round(s.place(i))
	}
	return at
}

// bounds returns the edges of the cells around places: midway between neighbours, and
// as far beyond the outer ones.
func bounds(places []float64) []float64 {
	n := len(places)
	if n == 1 {
		return []float64{places[0] - 0.5, places[0] + 0.5}
	}
	edges := []float64{draw.Round(places[0] - (places[1]-places[0])/2)}
	for i := 1; i < n; i++ {
		edges = append(edges, draw.Round((places[i-1]+places[i])/2))
	}
	return append(edges, draw.Round(places[n-1]+(places[n-1]-places[n-2])/2))
}

// contourSeries returns the lines of one level, of which the longest is named.
func contourSeries(name string, lines [][][2]float64) []echarts.SingleSeries {
	longest := 0
	for i := range lines {
		if len(lines[i]) > len(lines[longest]) {
			longest = i
		}
	}
	var series []echarts.SingleSeries
	for i, line := range lines {
		at := -1
		if i == longest {
			at = len(line) / 2
		}
		var data []draw.Point
		for k, p := range line {
			value := []any{draw.Round(p[0]), draw.Round(p[1])}
			if k == 0 {
				value = append(value, at)
			} else {
				value = append(value, -1)
			}
			data = append(data, draw.Point{Value: value})
		}
		series = append(series, draw.Contour.Series(name, draw.Ink, data...))
	}
	return series
}
