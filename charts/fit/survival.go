package fit

import (
	"fmt"
	"math"

	"arrayodds/array/elementary"
	"arrayodds/array/unit"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/fit"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

// mostCurves bounds the drawings of a page: those with the most failures.
const mostCurves = 12

// Colours of a curve and of the laws over it.
const (
	seenColour     = draw.Teal
	weibullColour  = draw.Orange
	constantColour = draw.Violet
)

// charts draws the curve of each label, up to mostCurves.
func (f fits) charts() []draw.Chart {
	var all []draw.Chart
	for _, i := range page.Least(len(f.Results), mostCurves, func(i int) float64 { return -f.Results[i].Failures }) {
		all = append(all, survivalChart(draw.MarkOf(i, f.Results[i].Label), f.Results[i]))
	}
	if n := len(f.Results) - len(all); n > 0 {
		all[len(all)-1].Notes = append(all[len(all)-1].Notes, fmt.Sprintf("Not drawn, having fewer failures: %s.", figure.Count(n, "label", "labels")))
	}
	return all
}

// survivalChart draws the share of drives still running by age, as seen and as the
// laws have it.
func survivalChart(m draw.Mark, r fit.Result) draw.Chart {
	c := draw.Chart{ID: fmt.Sprintf("survival-%d", m.Number), Title: "Drives still running, by age: " + m.Numbered(), Height: 420}
	if len(r.Survival) == 0 {
		c.Absent = "The record gives sums, of which no curve can be drawn."
		return c
	}
	if r.Failures == 0 {
		c.Absent = "No drive failed, so there is nothing to draw."
		return c
	}
	start, end := r.Survival[0].Hours, r.Survival[len(r.Survival)-1].Hours
	constant := lawCurve(start, end, func(h float64) float64 { return r.AFR.Value * h / unit.HoursPerYear })
	series := seenSeries(m, r.Survival)
	series = append(series, draw.LineSeries("constant rate", constantColour, draw.Dashed, constant...))
	c.Key = []draw.KeyEntry{{Drawing: draw.LineDrawing(seenColour, ""), Text: "as seen (Kaplan-Meier), with its 95 % interval"}, {Drawing: draw.LineDrawing(constantColour, "5 3"), Text: "constant rate"}}
	lines := [][]draw.Point{constant}
	if w := r.Weibull; w != nil {
		curve := lawCurve(start, end, func(h float64) float64 { return elementary.Pow(h/w.Scale.Value, w.Shape.Value) })
		series = append(series, draw.LineSeries("Weibull law", weibullColour, draw.Solid, curve...))
		c.Key = append(c.Key, draw.KeyEntry{Drawing: draw.LineDrawing(weibullColour, ""), Text: "Weibull law"})
		lines = append(lines, curve)
	}
	low, step := shareScale(r.Survival, lines)
	x := draw.XAxis("age in years", 30, draw.PlainTicks)
	x.Min, x.Max, x.SplitLine = math.Floor(start/unit.HoursPerYear), math.Ceil(10*end/unit.HoursPerYear)/10, draw.NoGridLines()
	y := draw.YAxis("still running", draw.PercentTicks)
	y.Min, y.Max, y.MinInterval, y.MaxInterval = low, 1, step, step
	c.Options = draw.Options(x, y, draw.Margins(), series...)
	c.Read = "The steps are what was seen, the band their 95 % interval; a law that leaves the band does not fit."
	if start > 0 {
		c.Read += fmt.Sprintf(" Counted are the drives that lived to %s years, the least age watched.", figure.Plain(start/unit.HoursPerYear))
	}
	if low > 0 {
		c.Read += fmt.Sprintf(" The scale begins at %s %%, not at 0.", figure.Exact(100*low))
	}
	last := r.Survival[len(r.Survival)-1]
	c.Alt = fmt.Sprintf("Share of drives still running by age. At %s: %s.", ageText(last.Hours), shareText(last))
	return c
}

// seenSeries returns the curve as steps, its band, and symbols that tell figures.
func seenSeries(m draw.Mark, steps []fit.Survived) []echarts.SingleSeries {
	var line, band, symbols []draw.Point
	every := draw.SymbolEvery(len(steps))
	for i, s := range steps {
		age := s.Hours / unit.HoursPerYear
		if i > 0 { // level up to the step
			before := steps[i-1]
			line = append(line, draw.Point{Value: []any{age, before.Value}})
			band = append(band, draw.Point{Value: []any{age, before.Low, before.High}})
		}
		line = append(line, draw.Point{Value: []any{age, s.Value}})
		band = append(band, draw.Point{Value: []any{age, s.Low, s.High}})
		if (len(steps)-1-i)%every == 0 {
			symbols = append(symbols, draw.Point{Value: []any{age, s.Value}, Tip: []string{m.Numbered(), "at " + ageText(s.Hours) + ": " + shareText(s),
				fmt.Sprintf("%s watched at that age", figure.Count(s.AtRisk, "drive", "drives"))}})
		}
	}
	return []echarts.SingleSeries{
		draw.Band.Series("as seen", seenColour, band...),
		draw.LineSeries("as seen", seenColour, "", line...),
		draw.Symbol{Shape: "circle", Colour: seenColour}.Series("as seen", 8, symbols...),
	}
}

// lawCurve returns the share of those running at start that still run later, of a law
// with that cumulative hazard.
func lawCurve(start, end float64, cumulative func(float64) float64) []draw.Point {
	const pieces = 80
	var curve []draw.Point
	for i := range pieces + 1 {
		h := start + (end-start)*float64(i)/pieces
		curve = append(curve, draw.Point{Value: []any{h / unit.HoursPerYear, elementary.Exp(cumulative(start) - cumulative(h))}})
	}
	return curve
}

// shareScale returns where the scale of shares begins, a round number below all that
// is drawn, so that a few failures can be seen, and the distance of its ticks.
func shareScale(steps []fit.Survived, curves [][]draw.Point) (low, step float64) {
	least := 1.0
	for _, s := range steps {
		least = math.Min(least, s.Low)
	}
	for _, c := range curves {
		least = math.Min(least, c[len(c)-1].Value[1].(float64))
	}
	for decade := 1e-6; decade < 1; decade *= 10 {
		for _, n := range []struct{ parts, of float64 }{{5, 0.2}, {4, 0.5}, {3, 1}, {5, 1}} {
			if reach := n.parts * n.of * decade; 1-least <= reach {
				round := func(x float64) float64 { return math.Round(x*1e9) / 1e9 }
				return round(1 - reach), round(n.of * decade)
			}
		}
	}
	return 0, 0.2
}

func ageText(hours float64) string { return figure.Plain(hours/unit.HoursPerYear) + " years" }

func shareText(s fit.Survived) string {
	e := estimate.Estimate{Value: s.Value, Low: s.Low, High: s.High}.Times(100)
	if e.Low == e.High {
		return figure.Number(e) + " %"
	}
	return fmt.Sprintf("%s %% (%s)", figure.Number(e), figure.Interval(e))
}
