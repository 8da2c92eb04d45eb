package choose

import (
	"math"

	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/answer"
	"arrayodds/sim/choose"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// mostDots is how many of the designs that are not on the front are drawn.
const mostDots = 300

func (f found) charts() []draw.Chart {
	life := page.ServiceLife(f.Site)
	all := []draw.Chart{f.chart("loss", "Chance of losing footage against cost", "chance of a loss within "+life,
		func(d choose.Design) estimate.Estimate { return d.Loss },
		func(o study.Outcome) estimate.Estimate {
			e := answer.Risk(o)
			if d := o.Doubt; d != nil && d.High > 0 && f.Finalists.Doubt.Settings > 0 {
				return estimate.FromInterval(e.Value, math.Min(d.Low, e.Value), math.Max(d.High, e.Value))
			}
			return e
		})}
	if len(f.Site.Cameras) > 0 {
		all = append(all, f.chart("missing", "Chance that a clip is missing against cost", "chance that a clip asked for is missing",
			func(d choose.Design) estimate.Estimate { return d.Missing }, answer.MissingRisk))
	}
	return all
}

// chart sets a chance against the cost of the service life: every design a dot, those of
// the front joined, and those that were compared over the doubt with their numbers.
func (f found) chart(id, title, axisName string, entered func(choose.Design) estimate.Estimate, inAll func(study.Outcome) estimate.Estimate) draw.Chart {
	var all []estimate.Estimate
	var others, front []draw.Point
	for _, d := range f.Designs {
		if e := entered(d); e.Value > 0 && !math.IsNaN(d.Cost) {
			all = append(all, estimate.Exact(e.Value))
		}
	}
	for _, o := range f.Finalists.Outcomes {
		if e := inAll(o); e.Value > 0 {
			all = append(all, e)
		}
	}
	axis := draw.NewLogAxis(all)
	for i, d := range f.Designs {
		e := entered(d)
		if !(e.Value > 0) || math.IsNaN(d.Cost) {
			continue
		}
		p := draw.Point{Value: []any{draw.Round(d.Cost), draw.Log10(e.Value)}, Tip: []string{d.Choice.Label,
			figure.Money(math.Round(d.Cost), f.Site.Currency) + " over the service life", "as entered: " + answer.Odds(e)}}
		switch {
		case d.Front:
			front = append(front, p)
		case len(f.Designs) <= mostDots || i%(len(f.Designs)/mostDots+1) == 0:
			others = append(others, p)
		}
	}
	pale := draw.Symbol{Shape: draw.Circle, Colour: draw.Pale}
	dark := draw.Symbol{Shape: draw.Circle, Colour: draw.Muted}
	series := []echarts.SingleSeries{pale.Series("other designs", 4, others...), dark.Series("the front", 6, front...)}
	for i, m := range f.marks() {
		o := f.Finalists.Outcomes[i]
		e, cost := inAll(o), o.CostOfLife(f.Site).Total().Value
		if !(e.Value > 0) || math.IsNaN(cost) {
			continue
		}
		tip := []string{m.Numbered(), figure.Money(math.Round(cost), f.Site.Currency) + " over the service life", "in all: " + answer.Odds(e)}
		if w := draw.WhiskerOf(e); w.High > w.Low {
			series = append(series, w.UprightSeries(m.Numbered(), m.Colour, draw.Round(cost), tip))
		}
		series = append(series, m.Symbol.Series(m.Numbered(), draw.SymbolSize, draw.Point{Value: []any{draw.Round(cost), draw.Log10(e.Value)}, Tip: tip, Label: m.NumberLabel("left")}))
	}
	x := draw.XAxis("cost of the service life, in "+figure.CurrencyName(f.Site.Currency), 32, draw.MoneyTicks)
	x.Scale = opts.Bool(true)
	margins := draw.Margins()
	margins.Bottom = "58"
	c := draw.Chart{
		ID: id, Title: title, Height: 460,
		Options: draw.Options(x, axis.Vertical(axisName), margins, series...),
		Read:    "Lower is safer, left is cheaper. Pale dots are designs that another beats, dark ones the front, as entered. Numbered points were held against the goal over all that is uncertain: the line through one spans 90 % of what the inputs may be; filled ones meet the goal.",
		Alt:     title + ". The figures stand in the tables below.",
	}
	c.Key = append(c.Key, draw.KeyEntry{Drawing: pale.Drawing(), Text: "beaten by another"}, draw.KeyEntry{Drawing: dark.Drawing(), Text: "on the front"})
	for _, m := range f.marks() {
		c.Key = append(c.Key, draw.KeyEntry{Drawing: m.Drawing(), Text: m.Numbered()})
	}
	return c
}
