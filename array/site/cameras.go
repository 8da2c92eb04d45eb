package site

import (
	"fmt"
	"slices"

	"arrayodds/array"
	"arrayodds/array/toml"
)

var camerasKey = Key{Path: "cameras", Kind: toml.Tables, Most: 1000, Item: "camera group", Absent: "none: choices are compared by capacity alone",
	Other: `the path of a schedule beside the site file: "schedule.xlsx"`,
	Doc:   "What is recorded, in groups of cameras alike."}

var cameraKeys = []Key{
	{Path: "label", Kind: toml.Text, Absent: "Cameras 1, Cameras 2 and so on", Doc: "The group's name, no two alike."},
	{Path: "count", Called: "number of cameras", Kind: toml.Whole, Min: "1", Max: "100000", Required: true, Doc: "How many cameras are in the group."},
	{Path: "bitrate", Called: "bit rate", Kind: toml.Measured, Quantity: toml.BitRate, Min: "1 kbit/s", Max: "10 Gbit/s", Required: true,
		Instead: []string{"resolution", "width", "height", "frames_per_second", "codec"},
		Missing: "resolution, frames_per_second and codec to estimate it from",
		Doc:     "What one camera sends while it records."},
	{Path: "hours_per_day", Called: "recorded hours a day", Kind: toml.Number, Min: "0.01", Max: "24", Default: "24", Doc: "Hours of a day in which the cameras may record."},
	{Path: "activity", Called: "share of time recorded", Kind: toml.Measured, Quantity: toml.Share, Min: "0.0001", Max: "1", Default: "1", Doc: "The share of those hours that is recorded."},
	{Path: "retention", Called: "retention", Kind: toml.Measured, Quantity: toml.Hours, Min: "1 h", Max: "50 y", Required: true,
		Doc: "How long footage is kept, which may be longer than the service life."},
	{Path: "resolution", Kind: toml.Text, Required: true, Right: `pixels across and down, such as "2560x1440", or "1080p", "4K" or "4 MP"`,
		Instead: []string{"width", "height"}, Unless: []string{"bitrate"}, Excludes: []string{"width", "height"},
		Doc: "The picture, to estimate the bit rate from; 1080p is 16:9, and 4K 3840x2160."},
	{Path: "width", Kind: toml.Whole, Min: "10", Max: "30000", Required: true,
		Instead: []string{"resolution"}, Unless: []string{"bitrate"}, Excludes: []string{"resolution"}, Doc: "Pixels across."},
	{Path: "height", Kind: toml.Whole, Min: "10", Max: "30000", Required: true,
		Instead: []string{"resolution"}, Unless: []string{"bitrate"}, Excludes: []string{"resolution"}, Doc: "Pixels down."},
	{Path: "frames_per_second", Called: "frames a second", Kind: toml.Number, Min: "0.01", Max: "1000", Required: true, Unless: []string{"bitrate"}, Doc: "Frames that one camera sends in a second."},
	{Path: "codec", Kind: toml.Word, Words: codecNames(), Required: true, Unless: []string{"bitrate"}, Doc: "How the frames are compressed; AVC and HEVC are known too."},
}

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
		t.Ask("cameras")
		r.scheduled = p.path
		if !r.Mute {
			r.Notes = append(r.Notes, p.notes...)
		}
		return slices.Clone(p.cameras)
	}
	before := len(r.Notes)
	var all []array.Cameras
	if n != nil && n.Kind == toml.StringNode {
		all = r.schedule(t, t.Ask("cameras"))
	} else {
		all = readGroups(t)
	}
	r.planned = &plan{n, r.scheduled, all, slices.Clone(r.Notes[before:])}
	return slices.Clone(all)
}

// readGroups reads the groups that stand in the file.
func readGroups(t *toml.Table) []array.Cameras {
	var all []array.Cameras
	named := labels{}
	for i, n := range t.Children("cameras") {
		all = append(all, readCamera(t.Table(n, "", "cameras"), i+1, named))
	}
	return all
}

// readCamera reads one group.
func readCamera(t *toml.Table, number int, named labels) array.Cameras {
	c := array.Cameras{Label: fmt.Sprintf("Cameras %d", number)}
	t.Label(number, &c.Label)
	named.add(t, c.Label)
	t.Count("count", &c.Count)
	readBitRate(t, &c)
	t.Number("hours_per_day", &c.HoursPerDay)
	t.Quantity("activity", &c.Activity)
	t.Quantity("retention", &c.Retention)
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
