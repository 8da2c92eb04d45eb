package now

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	now "arrayodds/sim/now"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

var point = draw.Symbol{Shape: draw.Circle, Colour: draw.Teal}

// mostPoints is about how many hours of a curve get a point with its interval.
const mostPoints = 12

// curves are the chance hour by hour: until the drives run again, and over 30 days.
func (r tonight) curves() (all []draw.Chart) {
	if len(r.Curve) == 0 {
		return nil
	}
	if until := r.firstHours(); until < now.Month*0.75 {
		all = append(all, r.curve("hours", "Chance of losing footage in the first "+now.Hours(until), until, 1, "hours from now"))
	}
	return append(all, r.curve("days", "Chance of losing footage over 30 days", now.Month, 24, "days from now"))
}

// firstHours returns how far the first curve goes: as long as the drives may take to run
// again, in whole days.
func (r tonight) firstHours() float64 {
	h := r.Whole.Ninety.Value
	if len(r.State.Down()) == 0 || !(h > 0) || math.IsInf(h, 1) {
		return now.Month
	}
	return math.Min(now.Month, math.Max(24, 24*math.Ceil(1.1*h/24)))
}

// curve draws the chance up to an hour, on an axis in units of so many hours.
func (r tonight) curve(id, title string, until, unit float64, axisName string) draw.Chart {
	c := draw.Chart{ID: id, Title: title, Height: 320}
	n := min(int(until), len(r.Curve))
	every := max(1, int(until)/mostPoints)
	var drawn []estimate.Estimate
	var line, points []draw.Point
	var whiskers []echarts.SingleSeries
	var alt []string
	for i, p := range r.Curve[:n] {
		if !draw.Drawable(p.Loss) {
			continue
		}
		w := draw.WhiskerOf(p.Loss)
		at := draw.Round(p.Hours / unit)
		line = append(line, draw.Point{Value: []any{at, w.At}})
		if i != n-1 && (i+1)%every != 0 {
			continue
		}
		drawn = append(drawn, p.Loss)
		tip := []string{"within " + now.Hours(p.Hours), figure.Odds(p.Loss), "95 % interval: " + figure.OddsInterval(p.Loss)}
		points = append(points, draw.Point{Value: []any{at, w.At}, Tip: tip})
		whiskers = append(whiskers, w.UprightSeries("95 % interval", point.Colour, at, tip))
		alt = append(alt, fmt.Sprintf("%s within %s", figure.Odds(p.Loss), now.Hours(p.Hours)))
	}
	if len(drawn) == 0 {
		c.Absent = "No loss was seen in the simulation, so there is nothing to draw."
		return c
	}
	axis := draw.NewLogAxis(drawn)
	// The first hours may be far below the first point.
	for len(line) > 0 && line[0].Value[1].(float64) < float64(axis.Min) {
		line = line[1:]
	}
	x := draw.XAxis(axisName, 30, draw.PlainTicks)
	x.Min, x.Max, x.SplitLine = 0, draw.Round(until/unit), draw.NoGridLines()
	series := []echarts.SingleSeries{draw.LineSeries("chance", point.Colour, draw.Solid, line...)}
	series = append(series, whiskers...)
	series = append(series, point.Series("chance", 9, points...))
	if h := r.Whole.Median.Value; len(r.State.Down()) > 0 && h > 0 && h < until {
		series = append(series, draw.VerticalLine("all drives run", draw.Round(h/unit), float64(axis.Min)))
		c.Key = append(c.Key, draw.KeyEntry{Drawing: draw.LineDrawing(draw.Ink, "4 3"), Text: "all drives run again, in half of the cases"})
	}
	c.Options = draw.Options(x, axis.Vertical("chance of a loss by then"), draw.Margins(), series...)
	c.Read = "Each point is the chance of having lost footage by that time, its upright line the 95 % interval (not seen where shorter than the point). The scale is one of powers of ten."
	c.Alt = title + ". " + strings.Join(alt, "; ") + "."
	return c
}

// ranked draws what each thing that can be done makes of the chance.
func (r tonight) ranked() []draw.Chart {
	if len(r.Actions) == 0 {
		return nil
	}
	type row struct {
		name string
		loss estimate.Estimate
	}
	rows := []row{{"Leave it alone", r.Loss}}
	if t := r.Together; t != nil {
		rows = append(rows, row{"All that speeds it up", t.Loss})
	}
	for _, a := range r.Actions {
		rows = append(rows, row{label.OneLine(a.Name), a.Loss})
	}
	var names, alt []string
	var all []estimate.Estimate
	for _, x := range rows {
		all = append(all, x.loss)
	}
	axis := draw.NewLogAxis(all)
	var series []echarts.SingleSeries
	if draw.Drawable(r.Loss) {
		series = append(series, draw.VerticalLine("left alone", draw.Log10(r.Loss.Value), 0))
	}
	for i, x := range rows {
		names = append(names, x.name)
		tip := []string{x.name, figure.Odds(x.loss) + " within 30 days", "95 % interval: " + figure.OddsInterval(x.loss)}
		series = append(series, draw.RowEstimate{Name: x.name, Symbol: point, Estimate: x.loss, Row: i, Tip: tip}.Series(axis)...)
		alt = append(alt, x.name+": "+figure.Odds(x.loss))
	}
	c := draw.Chart{ID: "ranking", Title: "Chance of losing footage within 30 days, by what is done", Rows: len(names), Height: 56*len(names) + 90}
	c.Print = draw.RowsOnPaper(c.Height, 26*len(names)+90)
	c.Options = draw.Options(axis.Horizontal("chance of a loss within 30 days"), draw.RowAxis(names), draw.RowMargins(), series...)
	c.Read = "Points are chances, the lines through them 95 % intervals (not seen where narrower than the point), the upright line is the chance if it is left alone. The scale is one of powers of ten."
	c.Alt = "Chance of losing footage within 30 days. " + strings.Join(alt, "; ") + "."
	return []draw.Chart{c}
}
