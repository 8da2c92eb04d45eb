package replay

import (
	"fmt"
	"math"

	"arrayodds/array/unit"
	"arrayodds/charts/draw"
	"arrayodds/sim/figure"
	"arrayodds/sim/history"
	"arrayodds/sim/trace"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// Bounds of what one drawing holds.
const (
	mostSpans   = 800
	mostDefects = 400
	mostMarks   = 400
	mostLosses  = 60
)

// hoursBefore and hoursAfter are how many hours the closer drawing begins before the
// first failure and ends after the array starts again.
const (
	hoursBefore = 48
	hoursAfter  = 12
)

// timeScale turns hours since the start into places on the axis.
type timeScale struct{ origin, unit float64 }

func (s timeScale) at(hours float64) float64 {
	return math.Round((hours-s.origin)/s.unit*1e6) / 1e6
}

// yearsAxis returns the whole life below a drawing.
func (t narrator) yearsAxis() opts.XAxis {
	x := draw.XAxis("years since the start", 30, draw.PlainTicks)
	x.Min, x.Max = 0, t.Horizon/unit.HoursPerYear
	return x
}

// lifeChart draws the whole life, bay by bay.
func (t narrator) lifeChart() draw.Chart {
	w := window{0, t.Horizon}
	x := t.yearsAxis()
	c := t.bayChart(fmt.Sprintf("life-%d", t.Number), "The whole life, bay by bay", x, timeScale{0, unit.HoursPerYear}, w)
	c.Read = "A row is a bay. A triangle is a failure; an outage of hours is a hairline here, drawn wider than it is, and opened up in the next drawing."
	c.Alt = "Time line of every bay over the life. " + t.tally()
	return c
}

// closeUp is the days around the first loss, or the longest outage.
type closeUp struct {
	window
	timeScale
	loss bool // that is at 0; else a drive's failure
}

// closeUp returns the stretch that is drawn more closely; false where there is none.
func (t narrator) closeUp() (closeUp, bool) {
	all := t.closer()
	if len(all) == 0 {
		return closeUp{}, false
	}
	c := closeUp{timeScale: timeScale{all[0].from, 1}}
	if losses := t.losses(); len(losses) > 0 {
		c.origin, c.loss = losses[0].At, true
	}
	c.window = window{math.Max(0, all[0].from-hoursBefore), math.Min(t.Horizon, all[0].to+hoursAfter)}
	if c.to-c.from > 10*24 {
		c.unit = 24
	}
	return c, true
}

// closeChart draws the days around the first loss, or the longest outage.
func (t narrator) closeChart() draw.Chart {
	c := draw.Chart{ID: fmt.Sprintf("close-%d", t.Number), Title: "The longest outage"}
	up, ok := t.closeUp()
	if !ok {
		c.Title = "A closer look"
		c.Absent = "No drive is out of service in this life, so there is nothing to look at more closely."
		return c
	}
	of := "the drive failed"
	if up.loss {
		c.Title, of = "The days around the first loss", "footage was lost"
	}
	w, s, name, step := up.window, up.timeScale, "hours", 0.0
	if s.unit > 1 {
		name = "days"
	}
	for _, step = range []float64{0.5, 1, 2, 3, 6, 12, 24, 48, 96, 200, 500, 1000, 2000} {
		if (w.to-w.from)/s.unit/step <= 9 {
			break
		}
	}
	x := draw.XAxis(name+" before and after "+of, 30, draw.SignedTicks)
	x.Min, x.Max = step*math.Floor(s.at(w.from)/step), step*math.Ceil(s.at(w.to)/step)
	x.MinInterval, x.MaxInterval = step, step
	title := c.Title
	c = t.bayChart(c.ID, title, x, s, w)
	c.Read = fmt.Sprintf("The same in %s: 0 is %s, when %s.", name, t.clock.stamp(s.origin), of)
	c.Alt = fmt.Sprintf("Time line of the bays from %s to %s.", t.clock.stamp(w.from), t.clock.stamp(w.to))
	return c
}

// bayChart draws a stretch of the life, a row a bay.
func (t narrator) bayChart(id, title string, x opts.XAxis, s timeScale, w window) draw.Chart {
	rows := t.rows(w)
	c := draw.Chart{ID: id, Title: title, Height: rows.pitch()*len(rows.names) + 66, Print: 13*len(rows.names) + 76}
	if rows.left != "" {
		c.Notes = append(c.Notes, rows.left)
	}
	outages, upTo := t.outageSeries(rows, s, w)
	if upTo < w.to {
		c.Notes = append(c.Notes, fmt.Sprintf("Too much happens to draw it all: what comes after %s is left out.", t.clock.short(upTo)))
	}
	w.to = upTo
	series := []echarts.SingleSeries{t.runningSeries(rows, s, w)}
	defects, note := t.defectSeries(rows, s, w)
	series = append(append(series, defects...), outages...)
	marks, more := t.markSeries(rows, s, w)
	series = append(series, marks...)
	if note || more {
		c.Notes = append(c.Notes, "Of defects and failures only the first are drawn: there are too many.")
	}
	series = append(series, draw.NoLine("the moment told")) // for the player
	c.Options = draw.Options(x, draw.NarrowRowAxis(rows.names), opts.Grid{Left: "74", Right: "24", Top: "10", Bottom: "54"}, series...)
	c.Key = append(t.stateKey(), draw.KeyEntry{Drawing: stateDrawing("failure", draw.Ink), Text: "a drive fails"})
	return c
}

// pitch returns the height of a row in pixels.
func (r bayRows) pitch() int {
	switch n := len(r.names); {
	case n <= 14:
		return 26
	case n <= 26:
		return 20
	}
	return 16
}

func (t narrator) runningSeries(rows bayRows, s timeScale, w window) echarts.SingleSeries {
	var data []draw.Point
	for b := range t.Bays {
		if row, ok := rows.row[b]; ok {
			data = append(data, draw.Point{Value: []any{s.at(w.from), s.at(w.to), row}})
		}
	}
	return spanRenderer("running").Series("running", runningColour, data...)
}

// outageSeries returns what bays are in when they do not run, a series a state, and
// up to when all of it is drawn.
func (t narrator) outageSeries(rows bayRows, s timeScale, w window) (series []echarts.SingleSeries, upTo float64) {
	data := map[trace.State][]draw.Point{}
	n, upTo := 0, w.to
	for _, o := range t.outages().all {
		row, ok := rows.row[o.Bay]
		if !ok || o.To < w.from || o.From > w.to {
			continue
		}
		if n >= mostSpans {
			upTo = o.From
			break
		}
		for _, p := range o.Parts {
			if p.To < w.from || p.From > w.to {
				continue
			}
			n++
			data[p.State] = append(data[p.State], draw.Point{Value: []any{s.at(max(p.From, w.from)), s.at(min(p.To, w.to)), row}, Tip: t.spanTip(p)})
		}
	}
	for _, l := range stateLooks {
		if data[l.State] != nil {
			series = append(series, spanRenderer(l.Form).Series(l.Text, l.Colour, data[l.State]...))
		}
	}
	return series, upTo
}

func (t narrator) spanTip(p trace.Span) []string {
	name := t.bay(p.Bay)
	if !t.alone() && t.groups() > 1 {
		name += ", " + t.group(t.groupOf(p.Bay))
	}
	what := ""
	for _, l := range stateLooks {
		if l.State == p.State {
			what = l.Text
		}
	}
	return []string{name, what + ", " + lasting(p.To-p.From), t.clock.short(p.From) + " to " + t.clock.short(p.To)}
}

// defectSeries returns latent defects, as long as nobody knows of them, and those
// that are met.
func (t narrator) defectSeries(rows bayRows, s timeScale, w window) (series []echarts.SingleSeries, more bool) {
	var present, met []draw.Point
	for _, d := range t.Defects {
		row, ok := rows.row[d.Bay]
		if !ok || d.To < w.from || d.From > w.to {
			continue
		}
		if len(present) >= mostDefects {
			more = true
			break
		}
		end := "cleared"
		if d.Met {
			end = "met"
		}
		tip := []string{t.bay(d.Bay), "a latent defect, " + end + " after " + lasting(d.To-d.From), t.clock.short(d.From) + " to " + t.clock.short(d.To)}
		present = append(present, draw.Point{Value: []any{s.at(max(d.From, w.from)), s.at(min(d.To, w.to)), row}, Tip: tip})
		if d.Met && d.To <= w.to {
			met = append(met, draw.Point{Value: []any{s.at(d.To), row}, Tip: tip})
		}
	}
	if present != nil {
		series = append(series, spanRenderer("defect").Series("latent defect", defectColour, present...))
	}
	if met != nil {
		series = append(series, draw.Symbol{Shape: "diamond", Colour: defectColour}.Series("defect met", 11, met...))
	}
	return series, more
}

// Symbols of events.
var (
	failureSymbol = draw.Symbol{Shape: draw.PointerDown, Colour: draw.Ink}
	sectorSymbol  = draw.Symbol{Shape: draw.Cross, Colour: defectColour}
	lossSymbol    = draw.Symbol{Shape: draw.PointerDown, Colour: lossColour}
)

// markSeries returns failures, sectors met in a rebuild, and losses.
func (t narrator) markSeries(rows bayRows, s timeScale, w window) (series []echarts.SingleSeries, more bool) {
	var failures, sectors, losses []draw.Point
	number := 0
	for _, e := range t.Events {
		if e.Kind == history.LosesSet {
			number++
		}
		if !w.holds(e.At) {
			continue
		}
		row, seen := rows.row[e.Bay]
		tip := []string{t.clock.stamp(e.At)}
		switch {
		case e.Kind == history.LosesSet && len(losses) < mostLosses:
			losses = append(losses, draw.Point{Value: []any{s.at(e.At), 0, number}, Tip: append(tip, figure.Capital(t.set(e.Set))+" is lost")})
		case e.Kind == history.Fails && seen && len(failures) < mostMarks:
			failures = append(failures, draw.Point{Value: []any{s.at(e.At), row}, Tip: append(tip, "the drive in "+t.bay(e.Bay)+" fails"), Offset: []int{0, -8}})
		case e.Kind == history.MeetsSector && seen && len(sectors) < mostMarks:
			sectors = append(sectors, draw.Point{Value: []any{s.at(e.At), row}, Tip: append(tip, "unreadable sector met in the rebuild of "+t.bay(e.Bay))})
		default:
			more = more || e.Kind == history.LosesSet || seen && (e.Kind == history.Fails || e.Kind == history.MeetsSector)
		}
	}
	if losses != nil {
		series = append(series, lossRenderer.Series("footage is lost", lossColour, losses...))
	}
	if failures != nil {
		series = append(series, failureSymbol.Series("a drive fails", 9, failures...))
	}
	if sectors != nil {
		series = append(series, sectorSymbol.Series("unreadable sector met", 9, sectors...))
	}
	return series, more
}
