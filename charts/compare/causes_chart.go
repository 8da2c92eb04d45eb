package compare

import (
	"fmt"
	"strings"

	"arrayodds/charts/draw"
	"arrayodds/sim"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

// cause is one reason why footage asked for is not there.
type cause struct {
	Name   string
	Means  string
	Symbol draw.Symbol
	Of     func(sim.MissingByCause) estimate.Estimate
}

func causes() []cause {
	list := []cause{
		{Name: "drives", Means: "groups of drives lost, and the wait until recording goes on", Of: func(m sim.MissingByCause) estimate.Estimate { return m.Drives }},
		{Name: "unreadable", Means: "stripes lost to unreadable sectors", Of: func(m sim.MissingByCause) estimate.Estimate { return m.Unreadable }},
		{Name: "recorder", Means: "nothing recorded: power supply, system disk, mains, swaps", Of: func(m sim.MissingByCause) estimate.Estimate { return m.Recorder }},
		{Name: "shortfall", Means: "overwritten before its time, for want of room", Of: func(m sim.MissingByCause) estimate.Estimate { return m.Shortfall }},
	}
	// Other colours and shapes than those of choices, which they would be taken for.
	for i, shape := range []string{draw.HalfMoon, draw.Hourglass, draw.Slash, draw.Chevron} {
		list[i].Symbol = draw.Symbol{Shape: shape, Colour: draw.Ink}
	}
	return list
}

// causesChart shows where missing footage comes from. The causes lie orders of
// magnitude apart, so they are points on a scale of powers of ten, never parts
// of a bar.
func (r report) causesChart() draw.Chart {
	c := draw.Chart{ID: "causes", Title: "Why footage asked for would be missing", Rows: len(r.Outcomes), Height: 84*len(r.Outcomes) + 90}
	if !r.hasCameras() {
		c.Absent = "This rests on the cameras, and the site file names none."
		return c
	}
	var all []estimate.Estimate
	for _, o := range r.Outcomes {
		for _, k := range causes() {
			if e := k.Of(o.Result.MissingByCause); e.High > 0 {
				all = append(all, e)
			}
		}
	}
	if len(all) == 0 {
		c.Absent = "No footage would be missing under the assumptions of the site file."
		return c
	}
	axis := draw.NewLogAxis(all)
	var series []echarts.SingleSeries
	var alt []string
	const apart = 17 // pixels between the causes of one choice
	for i, m := range r.marks() {
		if !r.Outcomes[i].Simulated() {
			alt = append(alt, m.Numbered()+": not simulated")
			continue
		}
		var said []string
		for n, k := range causes() {
			e := k.Of(r.Outcomes[i].Result.MissingByCause)
			if e.High <= 0 {
				continue
			}
			tip := []string{m.Numbered(), figure.Capital(k.Name) + ": " + figure.Odds(e), "95 % interval: " + figure.OddsInterval(e)}
			offset := apart*n - apart*(len(causes())-1)/2
			series = append(series, draw.RowEstimate{Name: k.Name, Symbol: k.Symbol, Size: 11, Estimate: e, Row: i, Down: offset, Tip: tip}.Series(axis)...)
			said = append(said, k.Name+" "+figure.Odds(e))
		}
		if len(said) == 0 {
			said = []string{"nothing"}
		}
		alt = append(alt, fmt.Sprintf("%s: %s", m.Numbered(), strings.Join(said, ", ")))
	}
	for _, k := range causes() {
		c.Key = append(c.Key, draw.KeyEntry{Drawing: k.Symbol.Drawing(), Text: figure.Capital(k.Name) + ": " + k.Means})
	}
	c.Options = draw.Options(axis.Horizontal("chance that a clip asked for is missing"), r.rowAxis(), draw.RowMargins(), series...)
	c.Read = "Each mark is the chance that a clip asked for, of any camera and of any age within its retention, is missing for that reason; further left is better, and a cause without a mark takes nothing."
	c.Alt = "Chance of a missing clip by cause. " + strings.Join(alt, "; ") + "."
	c.Notes = r.warningNotes()
	return c
}
