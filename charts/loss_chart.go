package charts

import (
	"fmt"
	"strings"

	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// offScale points to the low end of a scale of powers of ten, where 0 lies.
const offScale = "path://M18 2V18L2 10Z"

// lossChart shows the loss chance of each choice, a point with its interval.
func (r report) lossChart() chart {
	var all []estimate.Estimate
	for _, o := range r.Outcomes {
		all = append(all, o.Result.LossChance)
	}
	axis := logAxisFor(all)
	var series []echarts.SingleSeries
	var alt []string
	for i, m := range r.marks() {
		e := all[i]
		tip := []string{m.numbered(), figure.Odds(e) + " over " + figure.Years(r.years()), "95 % interval: " + figure.OddsInterval(e)}
		series = append(series, acrossRow(m.numbered(), m.Shape, m.Colour, m.Hollow, e, axis, i, 0, figure.Odds(e), tip)...)
		alt = append(alt, fmt.Sprintf("%s: %s", m.numbered(), figure.Odds(e)))
	}
	return chart{
		ID:      "loss",
		Title:   "Chance of losing footage within " + figure.Years(r.years()),
		Options: options(axis.horizontal("chance of a loss within "+figure.Years(r.years())), r.rows(), rowGrid(), series...),
		Height:  56*len(r.Outcomes) + 90,
		Rows:    true,
		Read:    "Further left is safer, on a scale of powers of ten; the line through a point is its 95 % interval (not seen where narrower than the point), and hollow points do not meet the demand.",
		Alt:     "Chance of losing footage for each choice. " + strings.Join(alt, "; ") + ".",
		Notes:   r.warningNotes(),
	}
}

// rowGrid leaves the names of the rows their room.
func rowGrid() opts.Grid {
	return opts.Grid{Left: "290", Right: "24", Top: "10", Bottom: "74"}
}

// acrossRow is a point with its whisker in a row, offset so many pixels down.
// A chance of 0 is drawn as a pointer at the low end.
func acrossRow(name, shape, colour string, hollow bool, e estimate.Estimate, axis logAxis, row, offset int, text string, tip []string) []echarts.SingleSeries {
	if !(e.Value > 0) {
		shape = offScale
	}
	p := point{Value: []any{float64(axis.Min), row}, Tip: tip}
	switch {
	case !(e.Value > 0):
		p.Offset = []int{9, offset} // clear of the name of its row
	case offset != 0:
		p.Offset = []int{0, offset}
	}
	var series []echarts.SingleSeries
	if e.High > 0 {
		w := whiskerOf(e)
		if e.Value > 0 {
			p.Value[0] = w.at
		} else {
			w.low = float64(axis.Min)
		}
		if w.high > w.low {
			series = append(series, drawn(name, "across", colour, []int{0, 1}, []int{2},
				point{Value: []any{w.low, w.high, row, offset, open(w)}, Tip: tip}))
		}
	}
	if text != "" {
		// Kept inside the plot: from the middle on, the text runs to the left.
		align := "left"
		if at := p.Value[0].(float64); at > float64(axis.Min+axis.Max)/2 {
			align = "right"
		}
		p.Label = textBeside(text, "top", align)
	}
	return append(series, points(name, shape, colour, hollow, p))
}

func open(w whisker) int {
	if w.open {
		return 1
	}
	return 0
}
