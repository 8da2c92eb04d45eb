package site

import (
	"fmt"

	"arrayodds/array"
)

const (
	maxGroups  = 1000
	maxCameras = 100_000
)

// cameras reads the camera groups.
func (t *table) cameras() []array.Cameras {
	items := t.children("cameras", maxGroups)
	if len(items) == 0 {
		t.note(t.lastOwn(), "cameras", "none: choices are compared by capacity alone", true)
	}
	var all []array.Cameras
	named := labels{}
	for i, n := range items {
		g := t.in(n, "", "cameras")
		c := array.Cameras{Label: fmt.Sprintf("Cameras %d", i+1)}
		g.label(absent(c.Label), i+1, &c.Label)
		named.add(g, c.Label)
		g.count("count", required, limits{1, maxCameras}, &c.Count)
		g.quantity("bitrate", aBitRate, required, between{"1 kbit/s", "10 Gbit/s"}, &c.BitRate)
		g.number("hours_per_day", standard(24), limits{0.01, 24}, &c.HoursPerDay)
		g.quantity("activity", aShare, standard(1), between{"0.0001", "1"}, &c.Activity)
		g.quantity("retention", aTime, required, between{"1 h", "50 y"}, &c.Retention)
		g.done()
		all = append(all, c)
	}
	return all
}

// labels finds names that are given twice.
type labels map[string]int // label → line

func (l labels) add(t *table, label string) {
	if label == "" {
		return
	}
	if line, twice := l[label]; twice {
		t.wrong("label", fmt.Sprintf("the label of line %d again", line), "a label of its own", "")
		return
	}
	l[label] = t.line("label")
}
