package replay

import (
	"fmt"
	"math"

	"arrayodds/array/unit"
	"arrayodds/charts/draw"
	"arrayodds/sim/figure"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// heldChart draws how far back the footage reaches over the life.
func (t narrator) heldChart() draw.Chart {
	c := draw.Chart{ID: fmt.Sprintf("held-%d", t.Number), Title: "Footage held, in days", Height: 300, Print: 230}
	if len(t.Held) == 0 {
		c.Absent = "The site file names no cameras, so there is no footage to count."
		return c
	}
	const mostPoints = 2000
	s := timeScale{0, unit.HoursPerYear}
	var line []draw.Point
	for _, h := range t.Held[:min(len(t.Held), mostPoints)] {
		line = append(line, draw.Point{Value: []any{s.at(h.At), math.Round(h.Hours/24*1000) / 1000}})
	}
	if len(t.Held) > mostPoints {
		c.Notes = append(c.Notes, "Drawn up to "+t.clock.short(t.Held[mostPoints-1].At)+": too much happens to draw it all.")
	}
	series := []echarts.SingleSeries{draw.LineSeries("footage held", draw.Teal, "", line...)}
	dots, note := t.heldLosses(s)
	if dots != nil {
		series = append(series, lossSymbol.Series("footage is lost", draw.SymbolSize, dots...))
	}
	if note {
		c.Notes = append(c.Notes, "Losses that stand close together are not all labelled; the account has each.")
	}
	series = append(series, draw.NoLine("the moment told"))
	x := t.yearsAxis()
	x.SplitLine = draw.NoGridLines()
	y := draw.YAxis("days that footage reaches back", draw.PlainTicks)
	y.Min = 0
	c.Options = draw.Options(x, y, opts.Grid{Left: "74", Right: "24", Top: "44", Bottom: "54"}, series...)
	c.Read = "All cameras together: the camera-hours held, divided by those that are recorded in an hour. It ramps up while the drives fill, and falls where footage is lost."
	c.Alt = "Footage held over the life, in days. " + t.tally()
	return c
}

// heldLosses marks losses at the height of what there was, labelled where
// there is room.
func (t narrator) heldLosses(s timeScale) (dots []draw.Point, crowded bool) {
	const room = 0.14 // of the width, for a label on a phone
	labelled := math.Inf(-1)
	for i, e := range t.losses() {
		if i == mostLosses {
			return dots, true
		}
		had, _ := t.heldAround(e.At)
		lost := t.lostDays(e)
		p := draw.Point{Value: []any{s.at(e.At), math.Round(had/24*1000) / 1000}, Tip: []string{t.clock.stamp(e.At), daysLost(lost) + " of footage lost", cameraDays(e.Destroyed) + " destroyed"}}
		if e.At-labelled > room*t.Horizon {
			p.Label = draw.NewLabel("−"+figure.Exact(math.Round(lost*10)/10)+" d", "top", "")
			labelled = e.At
		} else {
			crowded = true
		}
		dots = append(dots, p)
	}
	return dots, crowded
}
