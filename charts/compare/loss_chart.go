package compare

import (
	"fmt"
	"strings"

	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

// lossChart shows the loss chance of each choice, a point with its interval.
func (r report) lossChart() draw.Chart {
	var all []estimate.Estimate
	for _, o := range r.Outcomes {
		if o.Simulated() {
			all = append(all, o.Result.LossChance)
		}
	}
	axis := draw.NewLogAxis(all)
	var series []echarts.SingleSeries
	var alt []string
	for i, m := range r.marks() {
		e := r.Outcomes[i].Result.LossChance
		if !e.Known() {
			alt = append(alt, m.Numbered()+": not simulated")
			continue
		}
		tip := []string{m.Numbered(), figure.Odds(e) + " over " + page.ServiceLife(r.Site), "95 % interval: " + figure.OddsInterval(e)}
		series = append(series, draw.RowEstimate{Name: m.Numbered(), Symbol: m.Symbol, Estimate: e, Row: i, Text: figure.Odds(e), Tip: tip}.Series(axis)...)
		alt = append(alt, fmt.Sprintf("%s: %s", m.Numbered(), figure.Odds(e)))
	}
	return draw.Chart{
		ID:      "loss",
		Title:   "Chance of losing footage within " + page.ServiceLife(r.Site),
		Options: draw.Options(axis.Horizontal("chance of a loss within "+page.ServiceLife(r.Site)), r.rowAxis(), draw.RowMargins(), series...),
		Height:  56*len(r.Outcomes) + 90,
		Rows:    len(r.Outcomes),
		Read:    "Further left is safer, on a scale of powers of ten; the line through a point is its 95 % interval (not seen where narrower than the point), and hollow points do not meet the demand.",
		Alt:     "Chance of losing footage for each choice. " + strings.Join(alt, "; ") + ".",
		Notes:   r.warningNotes(),
	}
}
