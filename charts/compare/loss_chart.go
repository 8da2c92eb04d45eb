package compare

import (
	"fmt"
	"strings"

	"arrayodds/charts/draw"
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
	axis := draw.LogAxisFor(all)
	var series []echarts.SingleSeries
	var alt []string
	for i, m := range r.marks() {
		e := r.Outcomes[i].Result.LossChance
		if !e.Known() {
			alt = append(alt, m.Numbered()+": not simulated")
			continue
		}
		tip := []string{m.Numbered(), figure.Odds(e) + " over " + figure.Years(r.years()), "95 % interval: " + figure.OddsInterval(e)}
		series = append(series, draw.AcrossRow(m.Numbered(), m.Shape, m.Colour, m.Hollow, e, axis, i, 0, figure.Odds(e), tip)...)
		alt = append(alt, fmt.Sprintf("%s: %s", m.Numbered(), figure.Odds(e)))
	}
	return draw.Chart{
		ID:      "loss",
		Title:   "Chance of losing footage within " + figure.Years(r.years()),
		Options: draw.Options(axis.Horizontal("chance of a loss within "+figure.Years(r.years())), r.rows(), draw.RowGrid(), series...),
		Height:  56*len(r.Outcomes) + 90,
		Rows:    true,
		Read:    "Further left is safer, on a scale of powers of ten; the line through a point is its 95 % interval (not seen where narrower than the point), and hollow points do not meet the demand.",
		Alt:     "Chance of losing footage for each choice. " + strings.Join(alt, "; ") + ".",
		Notes:   r.warningNotes(),
	}
}
