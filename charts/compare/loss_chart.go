package compare

import (
	"fmt"
	"strings"

	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/answer"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

// spread returns the chance of a choice to reckon with, its interval the spread over what
// is uncertain; where that was not worked out the chance as entered.
func (r report) spread(row int) estimate.Estimate {
	o := r.Outcomes[row]
	if d := o.Doubt; r.doubtful() && d != nil && d.LossInAll.Value > 0 {
		return estimate.FromInterval(d.LossInAll.Value, min(d.Low, d.LossInAll.Value), max(d.High, d.LossInAll.Value))
	}
	return o.Result.LossChance
}

// lossChart shows the loss chance of each choice: a point with its spread, and below it
// a small one as entered.
func (r report) lossChart() draw.Chart {
	const down = 13 // pixels from the one to the other
	var all []estimate.Estimate
	for i, o := range r.Outcomes {
		if o.Simulated() {
			all = append(all, o.Result.LossChance, r.spread(i))
		}
	}
	axis := draw.NewLogAxis(all)
	var series []echarts.SingleSeries
	var alt []string
	for i, m := range r.marks() {
		e, o := r.Outcomes[i].Result.LossChance, r.spread(i)
		if !e.Known() {
			alt = append(alt, m.Numbered()+": not simulated")
			continue
		}
		said := r.said(i)
		tip := []string{m.Numbered(), said.Class + " lose footage in " + page.ServiceLife(r.Site) + " (" + said.InAll + ")"}
		if r.doubtful() {
			tip = append(tip, "of the settings 5 % to 95 %: "+said.Spread)
		}
		tip = append(tip, "as entered: "+figure.Odds(answer.Rough(e)), "95 % interval of the simulation: "+figure.OddsInterval(e))
		series = append(series, draw.RowEstimate{Name: m.Numbered(), Symbol: m.Symbol, Estimate: o, Row: i, Text: said.InAll, Tip: tip}.Series(axis)...)
		if r.doubtful() {
			small := draw.Symbol{Shape: draw.Circle, Colour: draw.Muted, Hollow: true}
			series = append(series, draw.RowEstimate{Name: m.Numbered() + ", as entered", Symbol: small, Size: 7, Estimate: estimate.Exact(e.Value), Row: i, Down: down, Tip: tip}.Series(axis)...)
		}
		alt = append(alt, fmt.Sprintf("%s: %s", m.Numbered(), said.InAll))
	}
	c := draw.Chart{
		ID:      "loss",
		Title:   "Chance of losing footage within " + page.ServiceLife(r.Site),
		Options: draw.Options(axis.Horizontal("chance of a loss within "+page.ServiceLife(r.Site)), r.rowAxis(), draw.RowMargins(), series...),
		Height:  56*len(r.Outcomes) + 90,
		Rows:    len(r.Outcomes),
		Read:    "Further left is safer, on a scale of powers of ten; the line through a point is its 95 % interval (not seen where narrower than the point), and hollow points do not meet the demand.",
		Alt:     "Chance of losing footage for each choice. " + strings.Join(alt, "; ") + ".",
		Notes:   r.warningNotes(),
	}
	if r.doubtful() {
		c.Title += ", over all that is uncertain"
		c.Read = "Further left is safer, on a scale of powers of ten. The point is the chance in all; the line through it spans 90 % of what the inputs may be; the small ring below it is the chance as entered. Hollow points do not meet the demand."
	}
	return c
}
