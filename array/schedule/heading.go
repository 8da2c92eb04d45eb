package schedule

import (
	"slices"
	"strings"

	"arrayodds/array/pattern"

	"arrayodds/array/unit"
)

// heading is what a column holds.
type heading struct {
	key    string
	unit   string // of the cells that have none; empty: none
	lesser bool   // only where no other column is of that key
}

// readHeading reads a heading, whose unit may stand in brackets or at its end.
func readHeading(text string) (heading, bool) {
	if len(text) > maxCellRunes {
		return heading{}, false
	}
	text = strings.TrimSpace(strings.TrimRight(Squeezed(strings.ReplaceAll(text, "_", " ")), ":*"))
	if h, ok := wholeOf()[canonical(text)]; ok {
		return h, true
	}
	name, of := text, ""
	if open := strings.IndexAny(text, "(["); open > 0 {
		name = strings.TrimSpace(text[:open])
		inner, _, _ := strings.Cut(text[open+1:], map[byte]string{'(': ")", '[': "]"}[text[open]])
		of = strings.TrimSpace(strings.TrimPrefix(strings.TrimSpace(inner), "in "))
	}
	if h, ok := named(name, of); ok {
		return h, true
	}
	// "retention days": only where the last word is a unit of that key.
	if cut := strings.LastIndexAny(name, " ,"); cut > 0 && of == "" {
		front := strings.TrimSuffix(strings.Trim(name[:cut], " ,"), " in")
		if h, ok := named(front, name[cut+1:]); ok && h.unit != "" {
			return h, true
		}
	}
	return heading{}, false
}

// named returns the heading of that name with what may be its unit.
func named(name, of string) (heading, bool) {
	name = canonical(name)
	for _, key := range unitTells()[name] {
		if u := unitOf(key, of); u != "" {
			return heading{key: key, unit: u}, true
		}
	}
	key, ok := keyOf()[name]
	if (key == "width" || key == "height") && of != "" && !slices.Contains(plainUnits[key], strings.ToLower(of)) {
		return heading{}, false // in metres
	}
	if ok {
		return heading{key: key, unit: unitOf(key, of)}, true // else a remark: then each cell needs its own unit
	}
	if key, ok := lesserOf()[name]; ok {
		return heading{key: key, unit: unitOf(key, of), lesser: true}, true
	}
	if h, ok := wholeOf()[name]; ok && of == "" {
		return h, true
	}
	return heading{}, false
}

// unitOf returns the unit that a key has by what stands in a heading; empty where it
// is no unit of that key.
func unitOf(key, of string) string {
	if of == "" {
		return ""
	}
	var err error
	switch key {
	case "bitrate":
		of = bitUnit(of)
		_, err = unit.BitRate("1 " + of)
	case "retention":
		_, err = unit.Hours("1 " + of)
	case "activity":
		_, err = unit.Percent("1 " + of)
	case "resolution":
		if !megapixel().MatchString(of) {
			return ""
		}
		of = "MP"
	case "hours_per_day":
		if !slices.Contains(plainUnits[key], strings.ToLower(canonical(of))) {
			return ""
		}
	default:
		return ""
	}
	if err != nil {
		return ""
	}
	return of
}

var (
	megapixel = pattern.Of(`^(?i:mp|mpx|mpix|megapixels?)$`)
	// bits is bits a second with capitals as spreadsheets make them, "Kbps" and
	// "MBit/s". A B without "it" may be a byte, and stays.
	bits = pattern.Of(`^([kKmMgG])(?:b|[bB]its?)(?:ps|/s|/sec|p/s)$`)
)

// bitUnit returns a unit of bits a second as package unit spells it, any other as it
// is.
func bitUnit(of string) string {
	if _, err := unit.BitRate("1 " + of); err == nil {
		return of
	}
	if m := bits().FindStringSubmatch(strings.TrimSuffix(of, ".")); m != nil {
		return map[string]string{"k": "kbit/s", "m": "Mbit/s", "g": "Gbit/s"}[strings.ToLower(m[1])]
	}
	return of
}

// plainUnits are units that say nothing more of a plain number.
var plainUnits = map[string][]string{
	"count":             {"cameras", "camera", "cams", "cam", "pcs.", "pcs", "pc", "nos.", "nos", "each", "ea", "×", "x"},
	"hours_per_day":     {"hours per day", "hours a day", "hours/day", "hrs/day", "hr/day", "h/day", "h/d", "hours", "hrs", "h"},
	"width":             {"pixels", "px"},
	"height":            {"pixels", "px"},
	"frames_per_second": {"frames per second", "frames/s", "images/s", "fps", "ips"},
}
