package site

import (
	"fmt"
	"slices"

	"arrayodds/array"
)

const (
	maxGroups  = 1000
	maxCameras = 100_000
)

// cameras reads the camera groups, which stand in the file or in a schedule that
// it names.
func (t *table) cameras() []array.Cameras {
	if n := t.node.under["cameras"]; n != nil && n.kind == text {
		n = t.ask("cameras", fallback{}, "")
		if t.plan == nil {
			t.planned = &plan{notes: len(t.notes)}
			t.planned.cameras = t.schedule(n)
			t.planned.path, t.planned.told = t.scheduled, slices.Clone(t.notes[t.planned.notes:])
			return t.planned.cameras
		}
		t.scheduled = t.plan.path
		t.notes = append(t.notes, t.plan.told...)
		return slices.Clone(t.plan.cameras)
	}
	items := t.children("cameras", maxGroups)
	if len(items) == 0 {
		t.note(t.lastOwn(), "cameras", "none: choices are compared by capacity alone", true)
	}
	var all []array.Cameras
	named := labels{}
	for i, n := range items {
		all = append(all, t.in(n, "", "cameras").camera(i+1, named))
	}
	return all
}

// camera reads one group.
func (t *table) camera(number int, named labels) array.Cameras {
	c := array.Cameras{Label: fmt.Sprintf("Cameras %d", number)}
	t.label(absent(c.Label), number, &c.Label)
	named.add(t, c.Label)
	t.count("count", required, limits{1, maxCameras}, &c.Count)
	t.bitRate(&c)
	t.number("hours_per_day", standard(24), limits{0.01, 24}, &c.HoursPerDay)
	t.quantity("activity", aShare, standard(1), between{"0.0001", "1"}, &c.Activity)
	t.quantity("retention", aTime, required, between{"1 h", "50 y"}, &c.Retention)
	t.done()
	return c
}

// labels finds names that are given twice.
type labels map[string]int // label → line

func (l labels) add(t *table, label string) {
	if label == "" {
		return
	}
	if line, twice := l[label]; twice {
		t.wrong("label", "the label of "+t.spot(line)+" again", "a label of its own", "")
		return
	}
	l[label] = t.line("label")
}
