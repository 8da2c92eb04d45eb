package teach

import (
	"fmt"
	"slices"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/sweep"
)

// ofParity asks for the next layout that bears more failures, or where there is
// none the one that bears less, with the same room.
func ofParity(own sweep.Point, z array.Sizing) question {
	q := question{before: -1, after: -1, not: "Parity is not asked about: there is no layout beside this one that bears more failures, or fewer."}
	levels := own.Choice.Layout.Level.ParityLevels()
	var bears []int // failures that a group survives, by setting
	add := func(c array.Choice) {
		shape, err := c.Layout.Shape(c.Drives, c.Groups)
		if err != nil {
			return // too few drives for this one
		}
		s := setting{text: layoutOf(c), point: sweep.Point{Site: own.Site, Choice: c}}
		q.settings, bears = append(q.settings, s), append(bears, shape.Tolerance)
	}
	groups := max(1, own.Choice.Groups)
	data := z.Shape.UsableDrives() / groups
	placed := false
	for _, l := range levels {
		c := own.Choice
		c.Layout = array.Layout{Level: l}
		if l == own.Choice.Layout.Level {
			q.before, placed = len(q.settings), true
			add(own.Choice)
			continue
		}
		c.Drives, c.Groups = groups*(data+l.Parity()), groups
		if l.Parity() == 0 { // each drive by itself, and nothing to rebuild
			c.Groups, c.HotSpares = 1, 0
		}
		if !placed && !slices.Contains(levels, own.Choice.Layout.Level) && l.Parity() > z.Shape.Tolerance {
			q.before, placed = len(q.settings), true
			add(own.Choice)
		}
		add(c)
	}
	if !placed {
		q.before = len(q.settings)
		add(own.Choice)
	}
	for i, n := range bears {
		if n > bears[q.before] {
			q.after = i
			break
		}
	}
	more := q.after >= 0
	if !more {
		q.after = q.before - 1 // which may be −1: then there is nothing to ask
	}
	if q.after < 0 {
		return q
	}
	to := q.settings[q.after]
	q.Title = "Bearing one failure more"
	if !more {
		q.Title = "Bearing fewer failures"
	}
	q.Ask = fmt.Sprintf("The same drives and the same room, but %s in place of %s: a group survives %s in place of %d.%s %s",
		to.text, q.settings[q.before].text, figure.Count(bears[q.after], "failure", "failures"), bears[q.before], reshaped(own.Choice, to.point.Choice), whatBecomes)
	q.why = func(before, after outage, times estimate.Estimate) string {
		safer, from := after, before
		if !more {
			safer, from = before, after
		}
		if !from.rebuilt {
			return "Without redundancy the first failure of any drive loses footage. With it a second one must come before the first is restored: a matter of hours or days, not of years."
		}
		return fmt.Sprintf("With redundancy used up, the chance that a further drive fails before the first is restored (%s from failure to restored) is small; one drive more of parity asks for that small chance once more, and so multiplies the odds by about its inverse. It costs %s in place of %d, and helps nothing against what strikes all drives at once.",
			unit.FormatHours(from.exposed), figure.Count(safer.drives, "drive", "drives"), from.drives)
	}
	return q
}

// weighed chooses a sentence by which way a ratio goes beyond doubt, and by more
// than a tenth.
func weighed(times estimate.Estimate, up, down, neither string) string {
	const clear = 1.1
	switch {
	case times.Low > 1 && times.Value > clear:
		return up
	case times.High < 1 && times.Value < 1/clear:
		return down
	}
	return neither
}
