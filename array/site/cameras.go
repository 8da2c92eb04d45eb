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

// plan is the cameras as they were read once, with what was noted of them: a
// schedule is not opened again, and groups that no setting touches are not judged
// again.
type plan struct {
	node    *node // what they were read from
	path    string
	cameras []array.Cameras
	told    []note
}

// cameras reads the camera groups, which stand in the file or in a schedule that
// it names.
func (t *table) cameras() []array.Cameras {
	n := t.node.under["cameras"]
	if p := t.plan; p != nil && n != nil && n == p.node && (t.watch == nil || n.kind == text) {
		t.ask("cameras", fallback{}, "")
		t.scheduled = p.path
		if !t.mute {
			t.notes = append(t.notes, p.told...)
		}
		return slices.Clone(p.cameras)
	}
	before := len(t.notes)
	var all []array.Cameras
	if n != nil && n.kind == text {
		all = t.schedule(t.ask("cameras", fallback{}, ""))
	} else {
		all = t.groups()
	}
	t.planned = &plan{n, t.scheduled, all, slices.Clone(t.notes[before:])}
	return slices.Clone(all)
}

// groups reads the groups that stand in the file.
func (t *table) groups() []array.Cameras {
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
