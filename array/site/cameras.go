package site

import (
	"fmt"
	"slices"

	"arrayodds/array"
	"arrayodds/array/toml"
)

const (
	maxGroups  = 1000
	maxCameras = 100_000
)

// plan is the cameras as they were read once, with what was noted of them: a
// schedule is not opened again, and groups that no setting touches are not judged
// again.
type plan struct {
	node    *toml.Node // what they were read from
	path    string
	cameras []array.Cameras
	notes   []toml.Note
}

// cameras reads the camera groups, which stand in the file or in a schedule that
// it names.
func (r *reader) cameras(t *toml.Table) []array.Cameras {
	n := t.Node.Under["cameras"]
	if p := r.plan; p != nil && n != nil && n == p.node && (r.Watch == nil || n.Kind == toml.StringNode) {
		t.Ask("cameras", toml.Fallback{}, "")
		r.scheduled = p.path
		if !r.Mute {
			r.Notes = append(r.Notes, p.notes...)
		}
		return slices.Clone(p.cameras)
	}
	before := len(r.Notes)
	var all []array.Cameras
	if n != nil && n.Kind == toml.StringNode {
		all = r.schedule(t, t.Ask("cameras", toml.Fallback{}, ""))
	} else {
		all = readGroups(t)
	}
	r.planned = &plan{n, r.scheduled, all, slices.Clone(r.Notes[before:])}
	return slices.Clone(all)
}

// readGroups reads the groups that stand in the file.
func readGroups(t *toml.Table) []array.Cameras {
	items := t.Children("cameras", maxGroups)
	if len(items) == 0 {
		t.Note(t.LastOwn(), "cameras", "none: choices are compared by capacity alone", true)
	}
	var all []array.Cameras
	named := labels{}
	for i, n := range items {
		all = append(all, readCamera(t.Table(n, "", "cameras"), i+1, named))
	}
	return all
}

// readCamera reads one group.
func readCamera(t *toml.Table, number int, named labels) array.Cameras {
	c := array.Cameras{Label: fmt.Sprintf("Cameras %d", number)}
	t.Label(toml.Absent(c.Label), number, &c.Label)
	named.add(t, c.Label)
	t.Count("count", toml.Required, toml.Limits{Low: 1, High: maxCameras}, &c.Count)
	readBitRate(t, &c)
	t.Number("hours_per_day", toml.Default(24), toml.Limits{Low: 0.01, High: 24}, &c.HoursPerDay)
	t.Quantity("activity", toml.Share, toml.Default(1), toml.Between{Low: "0.0001", High: "1"}, &c.Activity)
	t.Quantity("retention", toml.Time, toml.Required, toml.Between{Low: "1 h", High: "50 y"}, &c.Retention)
	t.Done()
	return c
}

// labels finds names that are given twice.
type labels map[string]int // label → line

func (l labels) add(t *toml.Table, label string) {
	if label == "" {
		return
	}
	if line, twice := l[label]; twice {
		t.Wrong("label", "the label of "+t.LineName(line)+" again", "a label of its own", "")
		return
	}
	l[label] = t.LineOf("label")
}
