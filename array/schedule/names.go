package schedule

import (
	"strings"
	"sync"
)

// keyNames are what a key may be called.
type keyNames struct {
	key   string
	names []string
}

// headings is what each key may be called: common practice, no source.
var headings = []keyNames{
	{"label", []string{"label", "name", "group", "camera group", "group name", "camera name", "camera label", "location", "camera location", "area", "zone",
		"place", "position", "room", "building", "floor", "level", "site area"}},
	{"count", []string{"count", "quantity", "qty", "number", "number of cameras", "no of cameras", "no. of cameras", "nr of cameras", "cameras", "camera count",
		"camera quantity", "camera qty", "total cameras", "cams", "no. of cams", "# of cameras", "# cameras", "pcs", "pieces"}},
	{"bitrate", []string{"bitrate", "bit rate", "stream rate", "bandwidth", "rate", "data rate", "datarate", "stream bitrate", "video bitrate", "camera bitrate",
		"average bitrate", "avg. bitrate", "mean bitrate", "average bit rate", "avg. bit rate", "bitrate per camera", "bit rate per camera",
		"bandwidth per camera", "data rate per camera", "rate per camera", "average bandwidth", "avg. bandwidth"}},
	{"hours_per_day", []string{"hours per day", "hours a day", "hrs per day", "hr per day", "hours", "hrs", "h per day", "daily hours", "hours recorded", "recording hours",
		"recorded hours", "rec. hours", "recording hours per day", "recording hrs per day", "recorded hours per day", "operating hours",
		"recording time", "recording time per day"}},
	{"activity", []string{"activity", "motion", "share recorded", "recorded", "recorded share", "recording share", "motion activity", "activity level",
		"scene activity", "motion share", "motion percentage", "duty cycle", "share of time recorded"}},
	{"retention", []string{"retention", "retention time", "retention period", "retention required", "required retention", "storage time", "storage period",
		"storage duration", "archive time", "archive period", "archiving period", "recording retention", "video retention"}},
	{"resolution", []string{"resolution", "res.", "image resolution", "video resolution", "camera resolution", "recording resolution", "stream resolution",
		"image size", "picture size", "frame size", "pixels"}},
	{"width", []string{"width", "pixel width", "image width", "horizontal pixels"}},
	{"height", []string{"height", "pixel height", "image height", "vertical pixels"}},
	{"frames_per_second", []string{"frames per second", "frame rate", "framerate", "frames/s", "frames/sec", "frames", "fps", "recording fps", "rec. fps",
		"recording frame rate", "camera fps", "images per second", "images/s", "ips", "pictures per second"}},
	{"codec", []string{"codec", "compression", "encoding", "video codec", "video compression", "video encoding", "compression format", "encoder", "video coding"}},
}

// lesser is headings that a key goes by only where no other column is called as above.
var lesser = []keyNames{
	{"label", []string{"description", "view", "field of view", "scene", "camera id", "id", "tag"}},
	{"bitrate", []string{"max. bitrate", "maximum bitrate", "peak bitrate", "bitrate limit", "max. bit rate", "maximum bit rate", "peak bit rate"}},
}

// withUnit is headings that tell what they are by their unit alone: "Storage (days)".
var withUnit = []keyNames{
	{"hours_per_day", []string{"recording", "recorded", "record", "time", "operation"}},
	{"retention", []string{"storage", "archive", "recording", "recorded", "kept", "keep", "keep for", "archiving"}},
	{"bitrate", []string{"stream", "video", "traffic", "throughput", "network", "data"}},
	{"resolution", []string{"image", "sensor", "picture", "camera", "megapixels"}},
	{"activity", []string{"recording", "recorded", "event", "events", "share"}},
}

// whole is headings that are their unit too.
var whole = []struct {
	text string
	is   heading
}{
	{"days", heading{key: "retention", unit: "days"}}, {"retention in days", heading{key: "retention", unit: "days"}}, {"days of retention", heading{key: "retention", unit: "days"}},
	{"days of storage", heading{key: "retention", unit: "days"}}, {"days stored", heading{key: "retention", unit: "days"}}, {"days kept", heading{key: "retention", unit: "days"}},
	{"days to keep", heading{key: "retention", unit: "days"}}, {"number of days", heading{key: "retention", unit: "days"}}, {"no. of days", heading{key: "retention", unit: "days"}},
	{"megapixels", heading{key: "resolution", unit: "MP"}}, {"megapixel", heading{key: "resolution", unit: "MP"}}, {"mp", heading{key: "resolution", unit: "MP"}}, {"mpx", heading{key: "resolution", unit: "MP"}},
	{"% motion", heading{key: "activity", unit: "%"}}, {"% activity", heading{key: "activity", unit: "%"}}, {"% recorded", heading{key: "activity", unit: "%"}},
	{"% of time", heading{key: "activity", unit: "%"}}, {"% of time recorded", heading{key: "activity", unit: "%"}},
	{"kbps", heading{key: "bitrate", unit: "kbit/s"}}, {"kbit/s", heading{key: "bitrate", unit: "kbit/s"}}, {"mbps", heading{key: "bitrate", unit: "Mbit/s"}}, {"mbit/s", heading{key: "bitrate", unit: "Mbit/s"}},
}

// others is headings of columns that are something else, however near they are to one
// that is known: no slips of the pen.
var others = []string{"camera", "camera type", "camera model", "camera no.", "bitrate total", "total bitrate", "total bandwidth", "total bit rate", "min. bitrate",
	"minimum bitrate", "bitrate mode", "bit rate mode", "retention policy", "recording mode", "number of lenses", "zones", "note", "notes", "nos.",
	"recorder", "option", "options", "mounting height", "camera height", "plate", "stage", "duration", "storage", "total storage", "hours total"}

// keyOf, lesserOf, elsewhere, unitTells and wholeOf are the keys of the headings above, as
// [canonical] writes them: made when a schedule is read, which most runs do not.
var (
	keyOf     = sync.OnceValue(func() map[string]string { return keysOf(headings) })
	lesserOf  = sync.OnceValue(func() map[string]string { return keysOf(lesser) })
	elsewhere = sync.OnceValue(func() map[string]string { return keysOf([]keyNames{{"", others}}) })
	unitTells = sync.OnceValue(func() map[string][]string {
		m := map[string][]string{}
		for _, of := range withUnit {
			for _, h := range of.names {
				m[canonical(h)] = append(m[canonical(h)], of.key)
			}
		}
		return m
	})
	wholeOf = sync.OnceValue(func() map[string]heading {
		m := map[string]heading{}
		for _, h := range whole {
			m[canonical(h.text)] = h.is
		}
		return m
	})
)

func keysOf(all []keyNames) map[string]string {
	m := map[string]string{}
	for _, of := range all {
		for _, h := range of.names {
			m[canonical(h)] = of.key
		}
	}
	return m
}

// Headings lists every heading that is known, in no order.
func Headings() []string {
	var all []string
	for _, of := range headings {
		all = append(all, of.names...)
	}
	return all
}

// Known reports whether a heading is no misspelt one: it is of what no schedule is read
// for, such as a camera's model, or of what another column says better.
func Known(text string) bool {
	name, _, _ := strings.Cut(text, "(")
	name = canonical(name)
	for _, keys := range []map[string]string{keyOf(), lesserOf(), elsewhere()} {
		if _, is := keys[name]; is {
			return true
		}
	}
	return unitTells()[name] != nil
}

// canonical returns a heading without what does not tell it from others: case,
// underscores, points, blanks at a slash, and "per" in place of it.
func canonical(text string) string {
	text = strings.ToLower(Squeezed(marks.Replace(text)))
	return slashes.Replace(text)
}

var (
	marks   = strings.NewReplacer("_", " ", ".", " ", "*", " ", ":", " ")
	slashes = strings.NewReplacer(" per ", "/", " / ", "/", "/ ", "/", " /", "/")
)
