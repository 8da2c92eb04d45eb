package replay

import (
	"fmt"
	"math"

	"arrayodds/array/unit"
	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/trace"
)

// mostSteps bounds the hours of all outages that go into the page; beyond it
// every so manieth is kept.
const mostSteps = 12000

// rebuildData is what the page's script is given: it picks and shows, and works
// nothing out.
type rebuildData struct {
	Sizes   []string        `json:"sizes"`
	Waits   []string        `json:"waits"`
	OwnSize int             `json:"ownSize"`
	OwnWait int             `json:"ownWait"`
	Runs    []rebuildRun    `json:"runs"` // runs[wait × sizes + size]
	At      int             `json:"at"`   // the step to begin with, of the own run
	Parts   []rebuildSeries `json:"parts"`
}

// rebuildRun is one outage: the figures of the whole, and by step texts and the
// points of the curves.
type rebuildRun struct {
	Whole []string        `json:"whole"` // as wholeNames
	Axis  rebuildAxis     `json:"axis"`
	Hours []float64       `json:"hours"`
	Texts [][]string      `json:"texts"` // of each step, as stepNames
	Lines [3][]draw.Point `json:"lines"` // share read, unreadable, further
}

// rebuildAxis is the scale of hours, which grows by doubling.
type rebuildAxis struct {
	Max         float64 `json:"max"`
	MinInterval float64 `json:"minInterval"`
	MaxInterval float64 `json:"maxInterval"`
}

// rebuildSeries says which line goes to which place of which drawing.
type rebuildSeries struct {
	Drawing string `json:"drawing"`
	Lines   []int  `json:"lines"`
	Mark    int    `json:"mark"` // place of the series that marks the hour
	LowEnd  int    `json:"foot"` // of the upright scale
}

// Names of the figures, in the order of Whole and of Texts.
var (
	wholeNames = []string{"Hours of rebuild", "Hours exposed", "Read from the running drives", "Chance of an unreadable sector", "Chance that a further drive fails"}
	stepNames  = []string{"Since the failure", "Rebuilt", "Read so far", "Unreadable sector so far", "Further failure so far"}
)

// rebuild is a rebuild hour by hour as the template needs it.
type rebuild struct {
	Data       rebuildData
	Sizes      int // the last place of the slider
	Waits      int
	Steps      int
	OwnSize    int
	OwnWait    int
	At         int
	Size, Wait string
	Whole      []rebuildFigure
	Step       []rebuildFigure
	Table      []rebuildRow
	Columns    []string
}

type rebuildFigure struct{ Name, Text string }

// rebuildRow is one drive size at the choice's own wait.
type rebuildRow struct {
	Size  string
	Own   bool
	Cells []string
}

// rebuild returns the rebuild hour by hour, or nil where nothing is rebuilt.
func (r lives) rebuild() *rebuild {
	z := r.Slow
	if !r.rebuilds() {
		return nil
	}
	lowEnd, every := r.chanceAxis().Min, r.stepEvery()
	d := rebuildData{OwnSize: z.OwnSize, OwnWait: z.OwnWait, Parts: []rebuildSeries{{"slow-done", []int{0}, 1, 0}, {"slow-chances", []int{1, 2}, 2, lowEnd}}}
	for _, c := range z.Capacities {
		d.Sizes = append(d.Sizes, unit.FormatSize(c))
	}
	for _, w := range z.Waits {
		d.Waits = append(d.Waits, waitText(w))
	}
	for i, run := range z.Runs {
		d.Runs = append(d.Runs, rebuildRunOf(run, z.Waits[i/len(z.Capacities)], every, lowEnd))
	}
	own := d.Runs[z.OwnWait*len(z.Capacities)+z.OwnSize]
	d.At = own.halfway()
	s := &rebuild{Data: d, Sizes: len(d.Sizes) - 1, Waits: len(d.Waits) - 1, Steps: len(own.Hours) - 1,
		OwnSize: z.OwnSize, OwnWait: z.OwnWait, At: d.At, Size: d.Sizes[z.OwnSize], Wait: d.Waits[z.OwnWait], Columns: wholeNames,
		Whole: rebuildFigures(wholeNames, own.Whole), Step: rebuildFigures(stepNames, own.Texts[d.At])}
	for i, size := range d.Sizes {
		s.Table = append(s.Table, rebuildRow{size, i == z.OwnSize, d.Runs[z.OwnWait*len(d.Sizes)+i].Whole})
	}
	return s
}

func rebuildFigures(names, texts []string) []rebuildFigure {
	var out []rebuildFigure
	for i, n := range names {
		out = append(out, rebuildFigure{n, texts[i]})
	}
	return out
}

// rebuilds reports whether there is an outage to show.
func (r lives) rebuilds() bool {
	z := r.Slow
	own := z.OwnWait*len(z.Capacities) + z.OwnSize
	return own < len(z.Runs) && len(z.Runs[own].Steps) > 0
}

// stepEvery returns which steps are kept: every so manieth.
func (r lives) stepEvery() int {
	n := 0
	for _, run := range r.Slow.Runs {
		n += len(run.Steps)
	}
	return 1 + n/mostSteps
}

func rebuildRunOf(run trace.RebuildRun, wait float64, every, lowEnd int) rebuildRun {
	d := rebuildRun{Axis: rebuildAxisOf(run.Exposed)}
	var last trace.RebuildStep
	if n := len(run.Steps); n > 0 {
		last = run.Steps[n-1]
	}
	d.Whole = []string{hoursText(run.Rebuild), hoursText(run.Exposed), unit.FormatSize(last.Read), nearly(last.Unreadable), nearly(last.Further)}
	for i, s := range run.Steps {
		if i%every != 0 && i != len(run.Steps)-1 {
			continue
		}
		done := fmt.Sprintf("%.0f %%", math.Floor(100*s.Done+1e-9))
		if s.Done == 0 && s.Hours < wait {
			done = "not begun, waiting for the drive"
		}
		d.Hours = append(d.Hours, timeScale{0, 1}.at(s.Hours))
		d.Texts = append(d.Texts, []string{hoursText(s.Hours), done, unit.FormatSize(s.Read), nearly(s.Unreadable), nearly(s.Further)})
		for k, y := range []float64{s.Done, s.Unreadable, s.Further} {
			p := draw.Point{Value: []any{timeScale{0, 1}.at(s.Hours), math.Round(y*1e4) / 1e4}}
			if k > 0 {
				if y <= 0 || draw.Log10(y) < float64(lowEnd) {
					continue // below the low end of the scale
				}
				p.Value[1] = draw.Log10(y)
			}
			d.Lines[k] = append(d.Lines[k], p)
		}
	}
	return d
}

// halfway returns the step in which half is rebuilt, to begin with.
func (d rebuildRun) halfway() int {
	for i, p := range d.Lines[0] {
		if p.Value[1].(float64) >= 0.5 {
			return i
		}
	}
	return max(0, len(d.Hours)-1)
}

// rebuildAxisOf returns a scale that holds so many hours, by doubling, so that
// outages of nearly one length are drawn on one scale.
func rebuildAxisOf(hours float64) rebuildAxis {
	reach := 6.0
	for reach < hours*(1-1e-9) && reach < 1e6 {
		reach *= 2
	}
	return rebuildAxis{reach, reach / 4, reach / 4}
}

// chanceAxis spans what the chances of all outages come to, and the decade
// below the least of them.
func (r lives) chanceAxis() draw.LogAxis {
	var all []estimate.Estimate
	for _, run := range r.Slow.Runs {
		if n := len(run.Steps); n > 0 {
			for _, p := range []float64{run.Steps[n-1].Unreadable, run.Steps[n-1].Further} {
				if p > 0 {
					all = append(all, estimate.Estimate{Value: p, Low: p / 10, High: p})
				}
			}
		}
	}
	return draw.NewLogAxis(all)
}

// nearly writes a chance that has no interval to the per cent of itself, which
// is more than the rates behind it are known to.
func nearly(p float64) string {
	return figure.Odds(estimate.Estimate{Value: p, Low: 0.99 * p, High: 1.01 * p})
}

// hoursText returns a length of time in hours, to what a reader cares for.
func hoursText(h float64) string {
	switch {
	case h == 0:
		return "0 h"
	case h < 10:
		return figure.Plain(math.Round(h*10)/10) + " h"
	}
	return figure.Whole(math.Round(h)) + " h"
}

// waitText returns the wait for a drive.
func waitText(h float64) string {
	if rough(h) < 48 {
		return hoursText(h)
	}
	return hoursText(h) + " (" + roundly(h/24, "day") + ")"
}
