package compare

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array/unit"
	"arrayodds/charts/draw"
	"arrayodds/sim"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// spreadForLog is how many times the largest chance at the end of the life must
// be the smallest for the scale to be one of powers of ten.
const spreadForLog = 30

// yearsChart shows how the loss chance grows over the service life.
func (r report) yearsChart() draw.Chart {
	c := draw.Chart{
		ID:     "years",
		Title:  "Chance of losing footage as the years pass",
		Height: 440,
		Key:    r.choiceKey(),
		Notes:  r.warningNotes(),
	}
	var all []estimate.Estimate
	var missing, unknown, alt []string
	marks := r.marks()
	for i, o := range r.Outcomes {
		if !o.Simulated() {
			unknown = append(unknown, marks[i].Numbered())
			continue
		}
		drawn := false
		for _, p := range o.Result.LossCurve {
			if p.Value > 0 {
				all, drawn = append(all, p.Estimate), true
			}
		}
		if !drawn {
			missing = append(missing, marks[i].Numbered())
			continue
		}
		last := o.Result.LossCurve[len(o.Result.LossCurve)-1]
		alt = append(alt, fmt.Sprintf("%s: %s after %s", marks[i].Numbered(), figure.Odds(last.Estimate), figure.Years(last.Years)))
	}
	if len(unknown) > 0 {
		c.Notes = append(c.Notes, "Not drawn, as not simulated: "+figure.List(unknown)+".")
	}
	if len(all) == 0 {
		c.Absent = "No choice lost footage in the simulation, so there is nothing to draw."
		return c
	}
	scale := r.yearsScale(all)
	var series []echarts.SingleSeries
	for i, o := range r.Outcomes {
		series = append(series, scale.curve(marks[i], o.Result.LossCurve)...)
	}
	x := draw.XAxis("years since the start, all drives new", 30, draw.PlainTicks)
	x.Min, x.Max, x.SplitLine = 0, r.Site.ServiceLife/unit.HoursPerYear, draw.NoGridLines()
	c.Options = draw.Options(x, scale.axis(), draw.Margins(), series...)
	c.Read = "Each line is the chance of having lost footage by that year, the band around it the 95 % interval (not seen where thinner than the line); dashed lines do not meet the demand"
	if scale.log != nil {
		c.Read += ", and the scale is one of powers of ten."
	} else {
		c.Read += "."
	}
	c.Alt = "Chance of losing footage over the years. " + strings.Join(alt, "; ") + "."
	if len(missing) > 0 {
		c.Notes = append(c.Notes, "Not drawn, as no loss was found: "+figure.List(missing)+".")
	}
	return c
}

// yearsScale is the vertical scale: powers of ten, or where all is of one size
// a plain one from 0.
type yearsScale struct {
	log *draw.LogAxis
}

func (r report) yearsScale(all []estimate.Estimate) yearsScale {
	low, high := math.Inf(1), 0.0
	for _, o := range r.Outcomes {
		if n := len(o.Result.LossCurve); n > 0 && o.Result.LossCurve[n-1].Value > 0 {
			end := o.Result.LossCurve[n-1].Value
			low, high = math.Min(low, end), math.Max(high, end)
		}
	}
	if high < spreadForLog*low {
		return yearsScale{}
	}
	a := draw.NewLogAxis(all)
	return yearsScale{&a}
}

func (s yearsScale) axis() opts.YAxis {
	const name = "chance of a loss by then"
	if s.log != nil {
		return s.log.Vertical(name)
	}
	y := draw.YAxis(name, draw.PercentTicks)
	y.Min = 0
	return y
}

// curve returns a line with its band and symbols, numbered at the end.
func (s yearsScale) curve(m draw.Mark, curve []sim.CurvePoint) []echarts.SingleSeries {
	var line, band, symbols []draw.Point
	if s.log == nil {
		line = append(line, draw.Point{Value: []any{0.0, 0.0}})
		band = append(band, draw.Point{Value: []any{0.0, 0.0, 0.0}})
	}
	every := draw.SymbolEvery(len(curve))
	found := false
	for i, p := range curve {
		if !(p.Value > 0) {
			continue
		}
		found = true
		at, low, high := p.Value, p.Low, p.High
		if s.log != nil {
			w := draw.WhiskerOf(p.Estimate)
			at, low, high = w.At, w.Low, w.High
		}
		line = append(line, draw.Point{Value: []any{p.Years, at}})
		band = append(band, draw.Point{Value: []any{p.Years, low, high}})
		last := i == len(curve)-1
		if !last && (len(curve)-1-i)%every != 0 {
			continue
		}
		symbol := draw.Point{Value: []any{p.Years, at}, Tip: []string{m.Numbered(),
			figure.Odds(p.Estimate) + " within " + figure.Years(p.Years), "95 % interval: " + figure.OddsInterval(p.Estimate)}}
		if last {
			symbol.Label = m.NumberLabel("right")
		}
		symbols = append(symbols, symbol)
	}
	if !found {
		return nil
	}
	stroke := draw.Solid
	if m.Hollow {
		stroke = draw.Dashed
	}
	return []echarts.SingleSeries{
		draw.Band.Series(m.Numbered(), m.Colour, band...),
		draw.LineSeries(m.Numbered(), m.Colour, stroke, line...),
		m.Symbol.Series(m.Numbered(), 9, symbols...),
	}
}
