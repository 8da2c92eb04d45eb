package charts

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"arrayodds/array/label"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// variedChart draws a quantity against one input: curves with their bands, or
// where the values are words, points in rows.
func (v sweep) variedChart(q quantity) chart {
	c := chart{ID: q.id, Title: q.title, Height: 440, Print: 330, Read: q.read}
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
			alt = append(alt, m.numbered()+": "+said)
		}
	}
	if drawn == 0 {
		c.Absent = "There is no figure to draw."
		return c
	}
	c.Alt = fmt.Sprintf("%s, by %s. %s.", q.title, label.Short(v.Inputs[0].Path), strings.Join(alt, "; "))
	c.Key = v.variedKey(q)
	if v.Inputs[0].Values == nil {
		v.drawRows(&c, q)
	} else {
		v.drawCurves(&c, q)
	}
	c.Notes = append(c.Notes, v.leftOut(q)...)
	return c
}

func (v sweep) drawCurves(c *chart, q quantity) {
	input, scale := scaleOf(v.Inputs[0]), v.riskScaleFor(q, 9)
	low, high := input.padded()
	var series []echarts.SingleSeries
	if at, ok := input.own(); ok {
		series = append(series, upright(at, scale.lowEnd()))
	}
	if q.times {
		series = append(series, level(low, high, 0))
	}
	goal, solved := v.goal()
	solved = solved && !q.times
	if solved {
		series = append(series, level(low, high, decades(goal)))
	}
	for i, m := range v.marks() {
		if i != q.skip {
			series = append(series, v.curve(q, i, m, input, scale)...)
		}
	}
	if solved {
		series = append(series, v.solvedPoints(input, decades(goal))...)
	}
	c.Options = options(input.horizontal(low, high), scale.vertical(q.axis), opts.Grid{Left: "84", Right: "34", Top: "36", Bottom: "54"}, series...)
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

// solvedPoints are the values that were solved for, on the level of the goal.
func (v sweep) solvedPoints(input inputScale, at float64) []echarts.SingleSeries {
	var series []echarts.SingleSeries
	for i, r := range v.BreakEven.Rows {
		if math.IsNaN(r.Value.Value) || input.Values == nil {
			continue
		}
		m := markOf(v.placeOf(r.Choice.Label, i), r.Choice.Label)
		first, last := input.Values[0], input.Values[len(input.Values)-1]
		within := func(x float64) float64 { return tidy(input.at(math.Min(math.Max(x, first), last))) }
		tip := []string{m.numbered(), label.OneLine(r.Text) + ": " + label.OneLine(v.BreakEven.Goal), "95 % interval: " + ratioInterval(r.Value)}
		series = append(series, drawn(m.numbered(), "across", m.Colour, []int{0, 1}, []int{2}, point{Value: []any{within(r.Value.Low), within(r.Value.High), at, 0, 0}, Tip: tip}))
		ring := points(m.numbered(), "path://"+shapes[0], m.Colour, true, point{Value: []any{within(r.Value.Value), at}, Tip: tip})
		ring.SymbolSize = 12
		series = append(series, ring)
	}
	return series
}

// upright marks the site file's value over the whole height.
func upright(at, foot float64) echarts.SingleSeries {
	return drawn("as in the site file", "mark", ink, []int{0}, []int{1}, point{Value: []any{at, foot}})
}

// level is a thin line at a height.
func level(from, to, at float64) echarts.SingleSeries {
	return echarts.SingleSeries{Name: "no difference", Type: "line", Symbol: "none", Data: []point{{Value: []any{from, at}}, {Value: []any{to, at}}},
		LineStyle: &opts.LineStyle{Color: muted, Width: 1}}
}

// curve is one choice: its stretches without a gap, each with its band, and
// symbols, the last one numbered.
func (v sweep) curve(q quantity, choice int, m mark, input inputScale, scale riskScale) []echarts.SingleSeries {
	points := v.Curves[choice].Points
	usable := func(i int) bool { return points[i].Absent == "" && drawable(q.of(points[i])) }
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

// stretch is a band, and lines that are dashed where they lead from or to a
// value at which the demand is not met.
func (v sweep) stretch(q quantity, points []study.Point, from int, m mark, input inputScale) []echarts.SingleSeries {
	var band []point
	var at []point
	for i, p := range points {
		w := spanOf(q.of(p))
		x := input.place(from + i)
		band = append(band, point{Value: []any{x, w.low, w.high}})
		at = append(at, point{Value: []any{x, w.at}})
	}
	series := []echarts.SingleSeries{drawn(m.numbered(), "band", m.Colour, []int{0}, []int{1, 2}, band...)}
	for i := 0; i+1 < len(at); {
		solid := points[i].Meets && points[i+1].Meets
		to := i + 1
		for to+1 < len(at) && (points[to].Meets && points[to+1].Meets) == solid {
			to++
		}
		stroke := "dashed"
		if solid {
			stroke = "solid"
		}
		series = append(series, echarts.SingleSeries{Name: m.numbered(), Type: "line", Symbol: "none", Data: at[i : to+1],
			LineStyle: &opts.LineStyle{Color: m.Colour, Width: 2, Type: stroke}})
		i = to
	}
	return series
}

// curveSymbols tell figures: some along the curve, and a pointer down wherever
// there is nothing to draw but 0.
func (v sweep) curveSymbols(q quantity, all []study.Point, m mark, input inputScale, scale riskScale, last int) []echarts.SingleSeries {
	every := (len(all) + mostSymbols - 1) / mostSymbols
	var filled, hollow, foot []point
	for i, p := range all {
		e := q.of(p)
		if p.Absent != "" || !known(e) {
			continue
		}
		tip := append([]string{m.numbered(), label.Short(v.Inputs[0].Path) + " " + label.OneLine(v.Inputs[0].Texts[i])}, q.tip(e)...)
		if !p.Meets {
			tip = append(tip, "does not hold the footage")
		}
		if e.Value == 0 {
			foot = append(foot, point{Value: []any{input.place(i), scale.lowEnd()}, Tip: tip})
			continue
		}
		if i != last && (last-i)%every != 0 {
			continue
		}
		symbol := point{Value: []any{input.place(i), spanOf(e).at}, Tip: tip}
		if i == last {
			symbol.Label = textBeside(strconv.Itoa(m.Number), "right", "")
			symbol.Label.Weight = "bold"
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
		data   []point
	}{{m.Shape, false, filled}, {m.Shape, true, hollow}, {offFoot, false, foot}} {
		if s.data != nil {
			dots := points(m.numbered(), s.shape, m.Colour, s.hollow, s.data...)
			dots.SymbolSize = 9
			series = append(series, dots)
		}
	}
	return series
}

// drawRows puts the values in rows, the choices of a row one below another.
func (v sweep) drawRows(c *chart, q quantity) {
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
	if q.skip >= 0 {
		n--
	}
	const apart = 15 // pixels
	c.Rows, c.Height = true, len(names)*max(44, apart*n+22)+90
	c.Print = max(len(names)*(11*n+14)+90, min(c.Height*5/6, 780))
	var series []echarts.SingleSeries
	if q.times {
		series = append(series, upright(0, 0))
	}
	place := 0
	for i, m := range v.marks() {
		if i == q.skip {
			continue
		}
		offset := apart*place - apart*(n-1)/2
		place++
		for row, p := range v.Curves[i].Points {
			if e := q.of(p); p.Absent == "" && known(e) {
				series = append(series, v.inRow(q, m, e, p.Meets, row, offset, scale)...)
			}
		}
	}
	c.Options = options(scale.horizontal(q.axis), rowAxis(names), rowGrid(), series...)
	if c.Read == "" {
		c.Read = "Further left is safer; the line through a point is its 95 % interval (not seen where narrower than the point)"
	} else {
		c.Read = strings.NewReplacer("Above × 1", "Right of × 1", "below it", "left of it", "the band", "the line through a point").Replace(c.Read)
	}
	c.Read += "; hollow points do not hold the footage."
}

// inRow is a point with its whisker, numbered.
func (v sweep) inRow(q quantity, m mark, e estimate.Estimate, meets bool, row, offset int, scale riskScale) []echarts.SingleSeries {
	tip := append([]string{m.numbered(), label.Short(v.Inputs[0].Path) + " " + label.OneLine(v.Inputs[0].Texts[row])}, q.tip(e)...)
	shape, at, high, beside := m.Shape, scale.lowEnd(), scale.lowEnd(), 8
	var series []echarts.SingleSeries
	if e.Value > 0 {
		w := spanOf(e)
		at, high = w.at, w.high
		if w.high > w.low {
			series = append(series, drawn(m.numbered(), "across", m.Colour, []int{0, 1}, []int{2},
				point{Value: []any{w.low, w.high, row, offset, open(w)}, Tip: tip}))
		}
	} else {
		shape = offScale
	}
	p := point{Value: []any{at, row}, Tip: tip, Offset: []int{0, offset}}
	if e.Value == 0 {
		p.Offset[0], beside = 9, 18 // clear of the name of its row
	}
	dot := points(m.numbered(), shape, m.Colour, !meets, p)
	dot.SymbolSize = 11
	return append(series, dot, drawn(m.numbered(), "numbered", m.Colour, []int{0}, []int{1}, point{Value: []any{high, row, m.Number, offset, beside}}))
}

// rowAxis is an axis of rows, the first on top.
func rowAxis(names []string) opts.YAxis {
	labels := tickLabels("")
	labels.Width, labels.Overflow, labels.Interval, labels.FontSize = 270, "break", "0", 13
	labels.Color = ink
	return opts.YAxis{Type: "category", Inverse: opts.Bool(true), Data: names,
		AxisLabel: labels, SplitLine: gridLines(), AxisLine: axisLine()}
}

func (v sweep) marks() []mark {
	marks := make([]mark, len(v.Curves))
	for i, c := range v.Curves {
		marks[i] = markOf(i, c.Choice.Label)
	}
	return marks
}

func (v sweep) variedKey(q quantity) []keyEntry {
	var key []keyEntry
	for i, m := range v.marks() {
		if i != q.skip {
			key = append(key, keyEntry{m.Drawing(), m.numbered()})
		}
	}
	return key
}
