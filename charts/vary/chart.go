package vary

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

// variedChart draws a quantity against one input: curves with their bands, or
// where the values are words, points in rows.
func (v sweep) variedChart(q quantity) draw.Chart {
	c := draw.Chart{ID: q.id, Title: q.title, Height: 440, Print: 330, Read: q.read}
	drawn := 0
	var alt []string
	last := map[int]string{}
	v.each(q, func(choice, at int, e estimate.Estimate) {
		drawn++
		last[choice] = fmt.Sprintf("%s at %s", q.said(e), label.Short(v.Inputs[0].Texts[at]))
	})
	marks := v.marks()
	for i, m := range marks {
		if said, ok := last[i]; ok {
			alt = append(alt, m.Numbered()+": "+said)
		}
	}
	if drawn == 0 {
		c.Absent = "There is no figure to draw."
		if len(v.untouched()) == len(v.Curves) {
			c.Absent = "Nothing is drawn: the input bears on none of the choices."
		}
		return c
	}
	c.Alt = fmt.Sprintf("%s, by %s. %s.", q.title, label.Short(called(v.Inputs[0])), strings.Join(alt, "; "))
	c.Key = v.variedKey(q)
	if v.Inputs[0].Values == nil {
		v.drawRows(&c, q)
	} else {
		v.drawCurves(&c, q)
	}
	c.Notes = append(c.Notes, v.leftOut(q)...)
	return c
}

func (v sweep) drawCurves(c *draw.Chart, q quantity) {
	input, scale := scaleOf(v.Inputs[0]), v.riskScaleFor(q, 9)
	low, high := input.padded()
	var series []echarts.SingleSeries
	if at, ok := input.own(); ok {
		series = append(series, draw.VerticalLine("as in the site file", at, scale.lowEnd()))
	}
	if q.times {
		series = append(series, draw.HorizontalLine("no difference", low, high, 0))
	}
	goal, solved := v.goal()
	solved = solved && !q.times
	if solved {
		series = append(series, draw.HorizontalLine("no difference", low, high, draw.Log10(goal)))
	}
	for i, m := range v.marks() {
		if v.draws(q, i) {
			series = append(series, v.curve(q, i, m, input, scale)...)
		}
	}
	if solved {
		series = append(series, v.solvedPoints(input, draw.Log10(goal))...)
	}
	c.Options = draw.Options(input.horizontal(low, high), scale.vertical(q.axis), draw.Margins(), series...)
	if c.Read == "" {
		c.Read = "Each line is a choice, the band around it its 95 % interval (not seen where thinner than the line)"
	}
	c.Read += "; dashed lines and hollow points do not hold the footage"
	if _, ok := input.own(); ok {
		c.Read += ", and the upright line is the value of the site file, " + label.OneLine(v.Inputs[0].OwnText)
	}
	c.Read += "."
	if solved {
		c.Read += " The level line is the goal, " + label.OneLine(v.BreakEven.Goal) + "; a ring on it is where a choice meets it, with its 95 % interval."
	}
	if input.Logarithmic() {
		c.Read += " Both scales are by ratio."
	}
}

// solvedPoints returns the values that were solved for, on the level of the goal.
func (v sweep) solvedPoints(input inputScale, at float64) []echarts.SingleSeries {
	var series []echarts.SingleSeries
	for i, r := range v.BreakEven.Rows {
		if math.IsNaN(r.Value.Value) || input.Values == nil {
			continue
		}
		m := draw.MarkOf(v.placeOf(r.Choice.Label, i), r.Choice.Label)
		first, last := input.Values[0], input.Values[len(input.Values)-1]
		within := func(x float64) float64 { return draw.Round(input.at(math.Min(math.Max(x, first), last))) }
		tip := []string{m.Numbered(), label.OneLine(r.Text) + ": " + label.OneLine(v.BreakEven.Goal), "95 % interval: " + figure.RatioInterval(r.Value)}
		ring := draw.Symbol{Shape: draw.Circle, Colour: m.Colour, Hollow: true}
		series = append(series,
			draw.Whisker{Low: within(r.Value.Low), High: within(r.Value.High)}.RowSeries(m.Numbered(), m.Colour, at, 0, tip),
			ring.Series(m.Numbered(), 12, draw.Point{Value: []any{within(r.Value.Value), at}, Tip: tip}))
	}
	return series
}

// curve returns one choice: its stretches without a gap, each with its band, and
// symbols, the last one numbered.
func (v sweep) curve(q quantity, choice int, m draw.Mark, input inputScale, scale riskScale) []echarts.SingleSeries {
	points := v.Curves[choice].Points
	usable := func(i int) bool { return points[i].Absent == "" && draw.Drawable(q.of(points[i])) }
	var series []echarts.SingleSeries
	last := -1
	for from := 0; from < len(points); from++ {
		if !usable(from) {
			continue
		}
		to := from
		for to+1 < len(points) && usable(to+1) {
			to++
		}
		series = append(series, v.stretch(q, points[from:to+1], from, m, input)...)
		last, from = to, to
	}
	return append(series, v.curveSymbols(q, points, m, input, scale, last)...)
}

// stretch returns a band, and lines that are dashed where they lead from or to a
// value at which the demand is not met.
func (v sweep) stretch(q quantity, points []study.Point, from int, m draw.Mark, input inputScale) []echarts.SingleSeries {
	var band []draw.Point
	var at []draw.Point
	for i, p := range points {
		w := draw.BoundedWhiskerOf(q.of(p))
		x := input.place(from + i)
		band = append(band, draw.Point{Value: []any{x, w.Low, w.High}})
		at = append(at, draw.Point{Value: []any{x, w.At}})
	}
	series := []echarts.SingleSeries{draw.Band.Series(m.Numbered(), m.Colour, band...)}
	for i := 0; i+1 < len(at); {
		solid := points[i].Meets && points[i+1].Meets
		to := i + 1
		for to+1 < len(at) && (points[to].Meets && points[to+1].Meets) == solid {
			to++
		}
		stroke := draw.Dashed
		if solid {
			stroke = draw.Solid
		}
		series = append(series, draw.LineSeries(m.Numbered(), m.Colour, stroke, at[i:to+1]...))
		i = to
	}
	return series
}

// curveSymbols tell figures: some along the curve, and a pointer down wherever
// there is nothing to draw but 0.
func (v sweep) curveSymbols(q quantity, all []study.Point, m draw.Mark, input inputScale, scale riskScale, last int) []echarts.SingleSeries {
	every := draw.SymbolEvery(len(all))
	var filled, hollow, none []draw.Point
	for i, p := range all {
		e := q.of(p)
		if p.Absent != "" || !draw.Known(e) {
			continue
		}
		tip := append([]string{m.Numbered(), v.valueTip(i)}, q.tip(e)...)
		tip = append(tip, figure.Drives(p.Drives, p.Groups))
		if !p.Meets {
			tip = append(tip, "does not hold the footage")
		}
		if e.Value == 0 {
			none = append(none, draw.Point{Value: []any{input.place(i), scale.lowEnd()}, Tip: tip})
			continue
		}
		if i != last && (last-i)%every != 0 {
			continue
		}
		symbol := draw.Point{Value: []any{input.place(i), draw.BoundedWhiskerOf(e).At}, Tip: tip}
		if i == last {
			symbol.Label = m.NumberLabel("right")
		}
		if p.Meets {
			filled = append(filled, symbol)
		} else {
			hollow = append(hollow, symbol)
		}
	}
	var series []echarts.SingleSeries
	for _, s := range []struct {
		shape  string
		hollow bool
		data   []draw.Point
	}{{m.Shape, false, filled}, {m.Shape, true, hollow}, {draw.PointerDown, false, none}} {
		if s.data != nil {
			symbol := draw.Symbol{Shape: s.shape, Colour: m.Colour, Hollow: s.hollow}
			series = append(series, symbol.Series(m.Numbered(), 9, s.data...))
		}
	}
	return series
}

// drawRows puts the values in rows, the choices of a row one below another.
func (v sweep) drawRows(c *draw.Chart, q quantity) {
	scale := v.riskScaleFor(q, 4)
	input := scaleOf(v.Inputs[0])
	own, hasOwn := input.own()
	var names []string
	for i, text := range v.Inputs[0].Texts {
		name := label.Short(text)
		if hasOwn && own == float64(i) {
			name += " (site file)"
		}
		names = append(names, name)
	}
	n := len(v.Curves)
	for i := range v.Curves {
		if !v.draws(q, i) {
			n--
		}
	}
	const apart = 15 // pixels
	c.Rows, c.Height = len(names), len(names)*max(44, apart*n+22)+90
	c.Print = draw.RowsOnPaper(c.Height, len(names)*(11*n+14)+90)
	var series []echarts.SingleSeries
	if q.times {
		series = append(series, draw.VerticalLine("as in the site file", 0, 0))
	}
	place := 0
	for i, m := range v.marks() {
		if !v.draws(q, i) {
			continue
		}
		offset := apart*place - apart*(n-1)/2
		place++
		for row, p := range v.Curves[i].Points {
			if e := q.of(p); p.Absent == "" && draw.Known(e) {
				series = append(series, v.inRow(q, m, p, row, offset, scale)...)
			}
		}
	}
	c.Options = draw.Options(scale.horizontal(q.axis), draw.RowAxis(names), draw.RowMargins(), series...)
	if c.Read == "" {
		c.Read = "Further left is safer; the line through a point is its 95 % interval (not seen where narrower than the point)"
	} else {
		c.Read = strings.NewReplacer("Above × 1", "Right of × 1", "below it", "left of it", "the band", "the line through a point").Replace(c.Read)
	}
	c.Read += "; hollow points do not hold the footage."
}

// inRow returns a point with its whisker, numbered.
func (v sweep) inRow(q quantity, m draw.Mark, p study.Point, row, offset int, scale riskScale) []echarts.SingleSeries {
	e := q.of(p)
	tip := append([]string{m.Numbered(), v.valueTip(row)}, q.tip(e)...)
	symbol, at, high, beside := m.Symbol, scale.lowEnd(), scale.lowEnd(), 8
	symbol.Hollow = !p.Meets
	tip = append(tip, figure.Drives(p.Drives, p.Groups))
	var series []echarts.SingleSeries
	if e.Value > 0 {
		w := draw.BoundedWhiskerOf(e)
		at, high = w.At, w.High
		if w.High > w.Low {
			series = append(series, w.RowSeries(m.Numbered(), m.Colour, float64(row), offset, tip))
		}
	} else {
		symbol.Shape = draw.PointerLeft
	}
	point := draw.Point{Value: []any{at, row}, Tip: tip, Offset: []int{0, offset}}
	if e.Value == 0 {
		point.Offset[0], beside = 9, 18 // clear of the name of its row
	}
	return append(series, symbol.Series(m.Numbered(), 11, point),
		draw.Numbered.Series(m.Numbered(), m.Colour, draw.Point{Value: []any{high, row, m.Number, offset, beside}}))
}

// valueTip returns the input with one of its values.
func (v sweep) valueTip(place int) string {
	return label.Short(called(v.Inputs[0])) + ": " + label.OneLine(v.Inputs[0].Texts[place])
}

func (v sweep) marks() []draw.Mark {
	return draw.Marks(v.Curves, func(c study.Curve) string { return c.Choice.Label })
}

func (v sweep) variedKey(q quantity) []draw.KeyEntry {
	var key []draw.KeyEntry
	for i, m := range v.marks() {
		if v.draws(q, i) {
			key = append(key, draw.KeyEntry{Drawing: m.Drawing(), Text: m.Numbered()})
		}
	}
	return key
}
