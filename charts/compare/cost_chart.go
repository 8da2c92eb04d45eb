package compare

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/charts/draw"
	"arrayodds/charts/page"
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
	for i, o := range r.Outcomes {
		if priced(o) && o.Simulated() {
			all = append(all, r.spread(i))
		}
	}
	axis := draw.NewLogAxis(all)
	series := r.pathLine(axis)
	stairs := len(series)
	var alt, missing, unknown, none []string
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
			none = append(none, m.Numbered())
		}
		series = append(series, r.costPoint(i, m, axis)...)
		alt = append(alt, fmt.Sprintf("%s: %s, %s", m.Numbered(), r.price(o.Sizing.Purchase), r.said(i).InAll))
	}
	x := draw.XAxis("purchase, in "+figure.CurrencyName(r.Site.Currency), 32, draw.MoneyTicks)
	x.Scale = opts.Bool(true)
	margins := draw.Margins()
	margins.Bottom = "58"
	c.Options = draw.Options(x, axis.Vertical("chance of a loss within "+page.ServiceLife(r.Site)), margins, series...)
	c.Read = "Lower is safer, left is cheaper (drives, hot spares and recorder); upright lines are " + r.whiskersAre()
	if stairs > 0 {
		c.Read += ", and the dashed staircase joins the choices that meet the demand and that nothing cheaper beats"
	}
	c.Read += "."
	c.Alt = "Price and chance of losing footage for each choice. " + strings.Join(alt, "; ") + "."
	c.Key = r.choiceKey()
	c.Notes = r.warningNotes()
	if len(none) > 0 {
		c.Notes = append(c.Notes, "Pointing down from the foot of the scale, as no loss was found: "+figure.List(none)+".")
	}
	if len(unknown) > 0 {
		c.Notes = append(c.Notes, "Not drawn, as not simulated: "+figure.List(unknown)+".")
	}
	if len(missing) > 0 {
		c.Notes = append(c.Notes, "Not drawn, as the site file gives no price: "+figure.List(missing)+".")
	}
	return c
}

// whiskersAre says what the lines through points are.
func (r report) whiskersAre() string {
	if r.doubtful() {
		return "90 % of what the inputs may be"
	}
	return "95 % intervals"
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
		line = append(line, draw.Point{Value: []any{r.Outcomes[i].Sizing.Purchase, axis.Place(r.spread(i))}})
	}
	return []echarts.SingleSeries{{Name: "steps up", Type: "line", Symbol: "none", Step: "end", Data: line,
		LineStyle: &opts.LineStyle{Color: draw.Muted, Width: 1, Type: "dashed"}}}
}

func (r report) costPoint(row int, m draw.Mark, axis draw.LogAxis) []echarts.SingleSeries {
	o, e, said := r.Outcomes[row], r.spread(row), r.said(row)
	tip := []string{m.Numbered(), r.price(o.Sizing.Purchase) + " to buy", said.Class + " lose footage (" + said.InAll + ")"}
	if r.doubtful() {
		tip = append(tip, "of the settings 5 % to 95 %: "+said.Spread)
	} else {
		tip = append(tip, "95 % interval: "+figure.OddsInterval(e))
	}
	p := draw.Point{Value: []any{o.Sizing.Purchase, axis.Place(e)}, Tip: tip, Label: m.NumberLabel("left")}
	var series []echarts.SingleSeries
	if e.High > 0 {
		w := draw.WhiskerOf(e)
		if e.Value <= 0 {
			w.Low = float64(axis.Min)
		}
		if w.High > w.Low {
			series = append(series, w.UprightSeries(m.Numbered(), m.Colour, o.Sizing.Purchase, tip))
		}
	}
	symbol := m.Symbol
	if e.Value <= 0 {
		symbol.Shape = draw.PointerDown
	}
	return append(series, symbol.Series(m.Numbered(), draw.SymbolSize, p))
}
