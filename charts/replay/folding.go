package replay

import (
	"fmt"

	"arrayodds/sim/figure"
	"arrayodds/sim/history"
)

const (
	mostLines = 200 // of a life's account that stand on the page
	mostOpen  = 80  // of those, that are seen at once
	allOpen   = 14  // an account this short is seen whole
)

// narrativePart is lines that follow each other and are seen, or folded away,
// together.
type narrativePart struct {
	Open  bool
	Title string // of a part that is folded away
	Lines []narrativeLine
	Left  string // how many lines are left out at its end; empty: none
}

// window is a stretch of a life, in hours since its start.
type window struct{ from, to float64 }

func (w window) holds(at float64) bool { return at >= w.from-near && at <= w.to+near }

// told returns the account of a life, and which of its lines stand on the page, and are
// seen at once there: those about losses, or without one about the longest outage.
func (t narrator) told() (lines []narrativeLine, kept, open []bool) {
	lines = t.narrative()
	open, kept = make([]bool, len(lines)), make([]bool, len(lines))
	n, left := 0, mostLines
	keep := func(i int) {
		if left > 0 && !kept[i] {
			kept[i] = true
			left--
		}
	}
	for _, w := range t.closer() {
		for i, l := range lines {
			if n < mostOpen && !open[i] && w.holds(l.At) {
				open[i] = true
				keep(i)
				n++
			}
		}
	}
	for i := range lines {
		if len(lines) <= allOpen {
			open[i] = true
		}
		keep(i)
	}
	return lines, kept, open
}

// parts folds away what lies apart from losses, or without one from the longest
// outage, and leaves out what would be too much to read.
func (t narrator) parts() []narrativePart {
	lines, kept, open := t.told()
	var parts []narrativePart
	skipped := 0
	for i, l := range lines {
		if !kept[i] {
			skipped++
			if len(parts) == 0 {
				parts = append(parts, narrativePart{})
			}
			parts[len(parts)-1].Left = figure.Whole(float64(skipped)) + " more, not told here."
			continue
		}
		if len(parts) == 0 || parts[len(parts)-1].Open != open[i] || skipped > 0 {
			parts = append(parts, narrativePart{Open: open[i]})
			skipped = 0
		}
		p := &parts[len(parts)-1]
		p.Lines = append(p.Lines, l)
	}
	for i := range parts {
		parts[i].Title = t.title(parts[i])
	}
	return parts
}

// title returns what a folded part is called.
func (t narrator) title(p narrativePart) string {
	if len(p.Lines) == 0 {
		return ""
	}
	first, last := t.clock.Day(p.Lines[0].At), t.clock.Day(p.Lines[len(p.Lines)-1].At)
	when := fmt.Sprintf("days %s to %s", figure.Whole(float64(first)), figure.Whole(float64(last)))
	if first == last {
		when = "day " + figure.Whole(float64(first))
	}
	return figure.Capital(when) + ": " + figure.Count(len(p.Lines), "event", "events")
}

// closer returns the stretches that are worth a closer look: the first losses, each
// with what led to it, or without a loss the longest outage.
func (t narrator) closer() []window {
	outages := t.outages()
	var all []window
	for _, e := range t.losses() {
		if len(all) == mostOpen {
			break
		}
		all = append(all, window{t.ledTo(e, outages), min(t.Horizon, max(e.At, e.Until))})
	}
	if len(all) > 0 {
		return all
	}
	if o, ok := longestOf(outages.all); ok {
		return []window{{o.From, o.To}}
	}
	return nil
}

// ledTo returns when the first of the failures began that led to a loss.
func (t narrator) ledTo(e history.Event, all outages) float64 {
	from := e.At
	for b := e.Group * t.DrivesInGroup; b < (e.Group+1)*t.DrivesInGroup; b++ {
		if o, ok := all.at(b, e.At); ok {
			from = min(from, o.From)
		}
	}
	return from
}

// longestOf returns the longest outage, the first of those that are alike.
func longestOf(all []outage) (outage, bool) {
	var best outage
	for _, o := range all {
		if o.To-o.From > best.To-best.From {
			best = o
		}
	}
	return best, len(all) > 0
}
