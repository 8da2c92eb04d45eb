package replay

import (
	"fmt"

	"arrayodds/charts/draw"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

// rebuildCharts draw the choice's own outage; the page's script redraws them as
// the sliders move.
func (r lives) rebuildCharts() []draw.Chart {
	z := r.Slow
	if !r.rebuilds() {
		return nil
	}
	wait := z.Waits[z.OwnWait]
	axis := r.chanceAxis()
	own := rebuildRunOf(z.Runs[z.OwnWait*len(z.Capacities)+z.OwnSize], wait, r.stepEvery(), axis.Min)
	at := own.Hours[own.halfway()]
	x := draw.XAxis("hours since the failure", 30, draw.PlainTicks)
	x.Min, x.Max, x.MinInterval, x.MaxInterval = 0, own.Axis.Max, own.Axis.MinInterval, own.Axis.MaxInterval
	y := draw.YAxis("rebuilt", draw.PercentTicks)
	y.Min, y.Max, y.MinInterval, y.MaxInterval = 0, 1, 0.25, 0.25
	done := draw.Chart{ID: "slow-done", Title: "How much of the rebuild is done", Height: 230, Print: 180,
		Key:  []draw.KeyEntry{{Drawing: draw.LineDrawing(draw.Teal, ""), Text: "share rebuilt"}},
		Read: "Level while the drive is waited for, then rising as it is rebuilt; the dotted line is the hour chosen. The scale of hours doubles where an outage outgrows it.",
		Alt:  fmt.Sprintf("The share rebuilt by hour, at the choice's own drive and wait: %s of rebuild, %s in all.", own.Whole[0], own.Whole[1])}
	done.Options = draw.Options(x, y, draw.Margins(),
		draw.LineSeries("share rebuilt", draw.Teal, draw.Solid, own.Lines[0]...), hourLine(at, 0))

	chances := draw.Chart{ID: "slow-chances", Title: "What may have happened by then", Height: 320, Print: 230,
		Key: []draw.KeyEntry{{Drawing: draw.LineDrawing(draw.Orange, ""), Text: "an unreadable sector has been met"}, {Drawing: draw.LineDrawing(draw.Teal, "5 3"), Text: "a further drive has failed, which loses the footage"}},
		Read: "The chances add up hour by hour, on a scale of powers of ten that is the same for all sizes and waits, so that the two can be seen beside each other and moves compared; " +
			"a line begins where its chance comes up to the foot of the scale.",
		Alt: fmt.Sprintf("By the end of the outage, chance of an unreadable sector: %s; that a further drive fails: %s.", own.Whole[3], own.Whole[4])}
	if !r.anyChance() {
		chances.Absent = "Neither unreadable sectors nor further failures are to be feared here: all chances are 0."
		return []draw.Chart{done, chances}
	}
	chances.Options = draw.Options(x, axis.Vertical("chance so far"), draw.Margins(),
		draw.LineSeries("unreadable sector", draw.Orange, draw.Solid, own.Lines[1]...), draw.LineSeries("further failure", draw.Teal, draw.Dashed, own.Lines[2]...), hourLine(at, float64(axis.Min)))
	return []draw.Chart{done, chances}
}

// anyChance reports whether any run has a chance that can be drawn.
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

// hourLine returns an upright line at an hour; y is any value on the scale.
func hourLine(hour, y float64) echarts.SingleSeries {
	return draw.VerticalLine("the hour chosen", hour, y)
}
