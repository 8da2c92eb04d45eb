package replay

import (
	"fmt"

	"arrayodds/charts/draw"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// slowCharts draw the choice's own outage; the page's script redraws them as
// the sliders move.
func (r lives) slowCharts() []draw.Chart {
	z := r.Slow
	if !r.slowed() {
		return nil
	}
	wait := z.Waits[z.OwnWait]
	axis := r.chanceAxis()
	own := slowDatumOf(z.Runs[z.OwnWait*len(z.Capacities)+z.OwnSize], wait, r.slowEvery(), axis.Min)
	at := own.Hours[own.halfway()]
	x := opts.XAxis{Type: "value", Name: "hours since the failure", NameLocation: "middle", NameGap: 30, Min: 0, Max: own.Axis.Max,
		MinInterval: own.Axis.MinInterval, MaxInterval: own.Axis.MaxInterval,
		AxisLabel: draw.TickLabels("plain"), SplitLine: draw.GridLines(), AxisLine: draw.AxisLine()}
	done := draw.Chart{ID: "slow-done", Title: "How much of the rebuild is done", Height: 230, Print: 180,
		Key:  []draw.KeyEntry{{Drawing: draw.StrokeDrawing(0, ""), Text: "share rebuilt"}},
		Read: "Level while the drive is waited for, then rising as it is rebuilt; the dotted line is the hour chosen. The scale of hours doubles where an outage outgrows it.",
		Alt:  fmt.Sprintf("The share rebuilt by hour, at the choice's own drive and wait: %s of rebuild, %s in all.", own.Whole[0], own.Whole[1])}
	done.Options = draw.Options(x, opts.YAxis{Type: "value", Name: "rebuilt", NameLocation: "end", NameGap: 14, Min: 0, Max: 1,
		MinInterval: 0.25, MaxInterval: 0.25, AxisLabel: draw.TickLabels("percent"), SplitLine: draw.GridLines(), AxisLine: draw.AxisLine()},
		opts.Grid{Left: "84", Right: "34", Top: "36", Bottom: "54"},
		slowLine("share rebuilt", 0, "solid", own.Lines[0]), slowMark(at, 0))

	chances := draw.Chart{ID: "slow-chances", Title: "What may have happened by then", Height: 320, Print: 230,
		Key: []draw.KeyEntry{{Drawing: draw.StrokeDrawing(1, ""), Text: "an unreadable sector has been met"}, {Drawing: draw.StrokeDrawing(0, "5 3"), Text: "a further drive has failed, which loses the footage"}},
		Read: "The chances add up hour by hour, on a scale of powers of ten that is the same for all sizes and waits, so that the two can be seen beside each other and moves compared; " +
			"a line begins where its chance comes up to the foot of the scale.",
		Alt: fmt.Sprintf("By the end of the outage, chance of an unreadable sector: %s; that a further drive fails: %s.", own.Whole[3], own.Whole[4])}
	if !r.anyChance() {
		chances.Absent = "Neither unreadable sectors nor further failures are to be feared here: all chances are 0."
		return []draw.Chart{done, chances}
	}
	chances.Options = draw.Options(x, axis.Vertical("chance so far"), opts.Grid{Left: "84", Right: "34", Top: "36", Bottom: "54"},
		slowLine("unreadable sector", 1, "solid", own.Lines[1]), slowLine("further failure", 0, "dashed", own.Lines[2]), slowMark(at, float64(axis.Min)))
	return []draw.Chart{done, chances}
}

// anyChance says whether any run has a chance that can be drawn.
func (r lives) anyChance() bool {
	for _, run := range r.Slow.Runs {
		for _, s := range run.Steps {
			if s.Unreadable > 0 || s.Further > 0 {
				return true
			}
		}
	}
	return false
}

func slowLine(name string, colour int, stroke string, data []draw.Point) echarts.SingleSeries {
	return echarts.SingleSeries{Name: name, Type: "line", Symbol: "none", Data: data, LineStyle: &opts.LineStyle{Color: draw.Palette[colour], Width: 2, Type: stroke}}
}

// slowMark is an upright line at an hour.
func slowMark(at, foot float64) echarts.SingleSeries {
	return draw.Custom("the hour chosen", "mark", draw.Ink, []int{0}, []int{1}, draw.Point{Value: []any{at, foot}})
}
