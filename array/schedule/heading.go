package schedule

import (
	"strings"

	"arrayodds/array/unit"
)

// headings is what each key may be called.
var headings = map[string][]string{
	"label":             {"label", "name", "group", "camera group", "location", "area", "zone"},
	"count":             {"count", "quantity", "qty", "number", "number of cameras", "no of cameras", "no. of cameras", "cameras"},
	"bitrate":           {"bitrate", "bit rate", "stream rate", "bandwidth", "rate", "bitrate per camera", "bit rate per camera"},
	"hours_per_day":     {"hours per day", "hours a day", "hours/day", "h/day", "recording hours"},
	"activity":          {"activity", "motion", "share recorded", "recorded"},
	"retention":         {"retention", "retention time", "retention period"},
	"resolution":        {"resolution"},
	"width":             {"width"},
	"height":            {"height"},
	"frames_per_second": {"frames per second", "frame rate", "frames/s", "fps"},
	"codec":             {"codec", "compression", "encoding"},
}

// keyOf is the key of a heading in small letters.
var keyOf = func() map[string]string {
	m := map[string]string{}
	for key, all := range headings {
		for _, h := range all {
			m[h] = key
		}
	}
	return m
}()

// Headings lists every heading that is known, in no order.
func Headings() []string {
	var all []string
	for h := range keyOf {
		all = append(all, h)
	}
	return all
}

// heading is what a column holds.
type heading struct {
	key  string
	unit string // of the cells that have none; empty: none
}

// readHeading reads a heading, whose unit may stand in brackets or at its end.
func readHeading(text string) (heading, bool) {
	if len(text) > maxCellRunes {
		return heading{}, false
	}
	text = strings.TrimSpace(strings.TrimSuffix(Squeezed(strings.ReplaceAll(text, "_", " ")), ":"))
	name, of := text, ""
	if open := strings.IndexAny(text, "(["); open > 0 {
		name = strings.TrimSpace(text[:open])
		inner, _, _ := strings.Cut(text[open+1:], map[byte]string{'(': ")", '[': "]"}[text[open]])
		of = strings.TrimSpace(inner)
	}
	if key, ok := keyOf[strings.ToLower(name)]; ok {
		if !unitOf(key, of) {
			of = "" // a remark: then each cell needs its own unit
		}
		return heading{key, of}, true
	}
	// "retention days": only where the last word is a unit of that key.
	if cut := strings.LastIndexAny(name, " ,"); cut > 0 && of == "" {
		key, ok := keyOf[strings.ToLower(strings.Trim(name[:cut], " ,"))]
		last := strings.TrimPrefix(name[cut+1:], "in ")
		if ok && unitOf(key, last) {
			return heading{key, last}, true
		}
	}
	return heading{}, false
}

// unitOf reports whether a key can have the unit.
func unitOf(key, of string) bool {
	if of == "" {
		return false
	}
	var err error
	switch key {
	case "bitrate":
		_, err = unit.BitRate("1 " + of)
	case "retention":
		_, err = unit.Hours("1 " + of)
	case "activity":
		_, err = unit.Percent("1 " + of)
	case "resolution":
		return strings.EqualFold(of, "MP")
	default:
		return false
	}
	return err == nil
}

// plainUnits are units that say nothing more of a plain number.
var plainUnits = map[string][]string{
	"count":             {"cameras", "camera", "pcs", "pc", "×", "x"},
	"hours_per_day":     {"hours per day", "hours a day", "hours/day", "h/day", "hours", "h"},
	"width":             {"pixels", "px"},
	"height":            {"pixels", "px"},
	"frames_per_second": {"frames per second", "frames/s", "fps"},
}
