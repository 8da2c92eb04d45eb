package compare

import (
	"fmt"
	"math"
	"strconv"
	"strings"

	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// costChart sets the loss chance against the purchase price.
func (r report) costChart() draw.Chart {
	c := draw.Chart{ID: "cost", Title: "Chance of losing footage against price", Height: 440}
	if !r.hasPrices() {
		c.Absent = "The site file gives no prices, so risk cannot be set against cost. With a price for each drive this chart appears."
		return c
	}
	priced := func(o study.Outcome) bool { return !math.IsNaN(o.Sizing.Purchase) }
	var all []estimate.Estimate
	for _, o := range r.Outcomes {
		if priced(o) && o.Simulated() {
			all = append(all, o.Result.LossChance)
		}
	}
	axis := draw.LogAxisFor(all)
	series := r.pathLine(axis)
	stairs := len(series)
	var alt, missing, unknown, foot []string
	for i, m := range r.marks() {
		o := r.Outcomes[i]
		if !o.Simulated() {
			unknown = append(unknown, m.Numbered())
			continue
		}
		if !priced(o) {
			missing = append(missing, m.Numbered())
			continue
		}
		if o.Result.LossChance.Value <= 0 {
			foot = append(foot, m.Numbered())
		}
		series = append(series, costPoint(m, o, axis)...)
		alt = append(alt, fmt.Sprintf("%s: %s, %s", m.Numbered(), figure.Whole(o.Sizing.Purchase), figure.Odds(o.Result.LossChance)))
	}
	x := opts.XAxis{Type: "value", Scale: opts.Bool(true), Name: "purchase, in the site's currency", NameLocation: "middle", NameGap: 32,
		AxisLabel: draw.TickLabels("money"), SplitLine: draw.GridLines(), AxisLine: draw.AxisLine()}
	c.Options = draw.Options(x, axis.Vertical("chance of a loss within "+figure.Years(r.years())),
		opts.Grid{Left: "84", Right: "34", Top: "36", Bottom: "58"}, series...)
	c.Read = "Lower is safer, left is cheaper (drives, hot spares and recorder); upright lines are 95 % intervals"
	if stairs > 0 {
		c.Read += ", and the dashed staircase joins the choices that meet the demand and that nothing cheaper beats"
	}
	c.Read += "."
	c.Alt = "Price and chance of losing footage for each choice. " + strings.Join(alt, "; ") + "."
	c.Key = r.choiceKey()
	c.Notes = r.warningNotes()
	if len(foot) > 0 {
		c.Notes = append(c.Notes, "Pointing down from the foot of the scale, as no loss was found: "+figure.List(foot)+".")
	}
	if len(unknown) > 0 {
		c.Notes = append(c.Notes, "Not drawn, as not simulated: "+figure.List(unknown)+".")
	}
	if len(missing) > 0 {
		c.Notes = append(c.Notes, "Not drawn, as the site file gives no price: "+figure.List(missing)+".")
	}
	return c
}

// pathLine joins the steps up as a staircase: up to the next price, the risk
// stays what it was.
func (r report) pathLine(axis draw.LogAxis) []echarts.SingleSeries {
	path := r.frontier(func(o study.Outcome) float64 { return o.Sizing.Purchase })
	if len(path) < 2 {
		return nil
	}
	var line []draw.Point
	for _, i := range path {
		line = append(line, draw.Point{Value: []any{r.Outcomes[i].Sizing.Purchase, heightOf(r.Outcomes[i].Result.LossChance, axis)}})
	}
	return []echarts.SingleSeries{{Name: "steps up", Type: "line", Symbol: "none", Step: "end", Data: line,
		LineStyle: &opts.LineStyle{Color: draw.Muted, Width: 1, Type: "dashed"}}}
}

// heightOf is where a chance stands; 0 stands at the low end.
func heightOf(e estimate.Estimate, axis draw.LogAxis) float64 {
	if e.Value > 0 {
		return draw.WhiskerOf(e).At
	}
	return float64(axis.Min)
}

func costPoint(m draw.Mark, o study.Outcome, axis draw.LogAxis) []echarts.SingleSeries {
	e := o.Result.LossChance
	tip := []string{m.Numbered(), figure.Whole(o.Sizing.Purchase) + " to buy",
		figure.Odds(e), "95 % interval: " + figure.OddsInterval(e)}
	p := draw.Point{Value: []any{o.Sizing.Purchase, heightOf(e, axis)}, Tip: tip, Label: draw.TextBeside(strconv.Itoa(m.Number), "left", "")}
	p.Label.Weight = "bold"
	var series []echarts.SingleSeries
	if e.High > 0 {
		w := draw.WhiskerOf(e)
		if e.Value <= 0 {
			w.Low = float64(axis.Min)
		}
		if w.High > w.Low {
			series = append(series, draw.Custom(m.Numbered(), "upright", m.Colour, []int{0}, []int{1, 2},
				draw.Point{Value: []any{o.Sizing.Purchase, w.Low, w.High, draw.OpenEnd(w)}, Tip: tip}))
		}
	}
	shape := m.Shape
	if e.Value <= 0 {
		shape = draw.OffFoot
	}
	return append(series, draw.Points(m.Numbered(), shape, m.Colour, m.Hollow, p))
}
