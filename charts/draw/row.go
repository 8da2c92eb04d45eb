package draw

import (
	"arrayodds/sim/estimate"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// OffFoot points to the low end of an upright scale, where 0 lies.
const OffFoot = "path://M2 2H18L10 18Z"

// OffScale points to the low end of a scale of powers of ten, where 0 lies.
const OffScale = "path://M18 2V18L2 10Z"

// RowGrid leaves the names of the rows their room.
func RowGrid() opts.Grid {
	return opts.Grid{Left: "290", Right: "24", Top: "10", Bottom: "74"}
}

// AcrossRow is a point with its whisker in a row, offset so many pixels down.
// A chance of 0 is drawn as a pointer at the low end.
func AcrossRow(name, shape, colour string, hollow bool, e estimate.Estimate, axis LogAxis, row, offset int, text string, tip []string) []echarts.SingleSeries {
	if !(e.Value > 0) {
		shape = OffScale
	}
	p := Point{Value: []any{float64(axis.Min), row}, Tip: tip}
	switch {
	case !(e.Value > 0):
		p.Offset = []int{9, offset} // clear of the name of its row
	case offset != 0:
		p.Offset = []int{0, offset}
	}
	var series []echarts.SingleSeries
	if e.High > 0 {
		w := WhiskerOf(e)
		if e.Value > 0 {
			p.Value[0] = w.At
		} else {
			w.Low = float64(axis.Min)
		}
		if w.High > w.Low {
			series = append(series, Custom(name, "across", colour, []int{0, 1}, []int{2},
				Point{Value: []any{w.Low, w.High, row, offset, OpenEnd(w)}, Tip: tip}))
		}
	}
	if text != "" {
		// Kept inside the plot: from the middle on, the text runs to the left.
		align := "left"
		if at := p.Value[0].(float64); at > float64(axis.Min+axis.Max)/2 {
			align = "right"
		}
		p.Label = TextBeside(text, "top", align)
	}
	return append(series, Points(name, shape, colour, hollow, p))
}

func OpenEnd(w whisker) int {
	if w.open {
		return 1
	}
	return 0
}

// RowAxis is an axis of rows, the first on top.
func RowAxis(names []string) opts.YAxis {
	labels := TickLabels("")
	labels.Width, labels.Overflow, labels.Interval, labels.FontSize = 270, "break", "0", 13
	labels.Color = Ink
	return opts.YAxis{Type: "category", Inverse: opts.Bool(true), Data: names,
		AxisLabel: labels, SplitLine: GridLines(), AxisLine: AxisLine()}
}
