package print

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site"
)

// Check writes what a site file says without any simulation: what the cameras
// need, what each choice is and holds, and the defaults that were used. sizes are
// those of the site's choices, in their order.
func Check(w io.Writer, f *site.File, sizes []array.Sizing) error {
	parts := []string{title(f.Site)}
	if len(f.Site.Cameras) > 0 {
		parts = append(parts, cameras(f.Site))
	}
	parts = append(parts, scheduled(f)...)
	parts = append(parts, choices(f.Site, sizes))
	parts = append(parts, estimated(f.Site)...)
	parts = append(parts, logged(f.Site)...)
	if text := defaults(f.Assumptions); text != "" {
		parts = append(parts, text)
	}
	parts = append(parts, verdict(sizes))
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// cameras returns the table of camera groups.
func cameras(s array.Site) string {
	var rows [][]string
	for i, c := range s.Cameras {
		alone := array.Site{Cameras: []array.Cameras{c}}.Demand()
		rate, needs := size(c.BitRate/1e6), terabytes(alone.Needed)
		if c.Estimated() {
			only := array.Site{Cameras: []array.Cameras{c}}
			low, high := only.Lowest(), only.Highest()
			rate = "~" + rate + "\n" + between(size(low.Cameras[0].BitRate/1e6), size(high.Cameras[0].BitRate/1e6))
			needs = "~" + needs + "\n" + between(terabytes(low.Demand().Needed), terabytes(high.Demand().Needed))
		}
		rows = append(rows, []string{fmt.Sprint(i + 1), plain(c.Label), whole(c.Count), rate, size(100 * c.Recorded()), days(c.Retention), needs})
	}
	return layOut([]column{{"", 0}, {"cameras", 40}, {"count", 0}, {"Mbit/s\neach", 0}, {"% of time\nrecorded", 0}, {"retention\ndays", 0}, {"needs\nTB", 0}}, rows)
}

// mostNotes is how many notes on a schedule are shown; the report has all of them.
const mostNotes = 20

// scheduled returns what was not read of a schedule, or not as it stands, none where
// there is no schedule.
func scheduled(f *site.File) []string {
	if f.Schedule == "" {
		return nil
	}
	var all []string
	for _, a := range f.Assumptions {
		if a.Path == "cameras" {
			all = append(all, paragraph("Schedule: %s", plain(a.Text)))
		}
	}
	if n := len(all) - mostNotes; n > 0 {
		all = append(all[:mostNotes], paragraph("Schedule: %d notes more, which the report of compare has", n))
	}
	return []string{strings.Join(all, "")}
}

// choices returns the table of choices.
func choices(s array.Site, sizes []array.Sizing) string {
	columns := []column{{"choice", 18}, {"layout", 12}, {"drives\n+ spares", 0}, {"bays", 0}, {"usable\nTB", 0}}
	if len(s.Cameras) > 0 {
		columns = append(columns, column{"meets\ndemand", 0}, column{"holds, days of\ncameras 1, 2, ...", 18})
	}
	priced := slices.ContainsFunc(sizes, func(z array.Sizing) bool { return !math.IsNaN(z.Purchase) })
	if priced {
		columns = append(columns, column{cost(s.Currency), 0})
	}
	var rows [][]string
	for i, c := range s.Choices {
		z := sizes[i]
		row := []string{plain(c.Label), layout(c), drives(c), bays(c, z), terabytes(z.Usable)}
		if len(s.Cameras) > 0 {
			row = append(row, meets(z), held(z))
		}
		if priced {
			row = append(row, money(z.Purchase))
		}
		rows = append(rows, row)
	}
	return layOut(columns, rows)
}

// layout returns a choice's layout with its groups, where there are several.
func layout(c array.Choice) string {
	if c.Groups > 1 {
		return fmt.Sprintf("%s,\n%d groups", c.Layout, c.Groups)
	}
	return c.Layout.String()
}

// drives returns a choice's drives with its hot spares: "8 + 1".
func drives(c array.Choice) string {
	if c.HotSpares > 0 {
		return fmt.Sprintf("%d + %d", c.Drives, c.HotSpares)
	}
	return fmt.Sprint(c.Drives)
}

// bays returns the bays used of those that the recorder has: "9 of 12".
func bays(c array.Choice, z array.Sizing) string {
	if c.Recorder == nil || c.Recorder.Bays == 0 {
		return "-"
	}
	return fmt.Sprintf("%d of %d", z.BaysUsed, c.Recorder.Bays)
}

// held returns how many days each camera group's footage reaches back, in the order
// of the table of cameras.
func held(z array.Sizing) string {
	var all []string
	for _, hours := range z.Held {
		all = append(all, days(hours))
	}
	return strings.Join(all, ", ")
}

// defaults returns the table of what the file leaves out, "" if that is nothing.
func defaults(all []site.Assumption) string {
	var rows [][]string
	for _, a := range all {
		if a.Default {
			rows = append(rows, []string{plain(a.Path), plain(a.Text)})
		}
	}
	if len(rows) == 0 {
		return ""
	}
	return layOut([]column{{"left out of the file", 38}, {"taken as", 58}}, rows)
}

// verdict returns the last line: whether the choices meet the demand.
func verdict(sizes []array.Sizing) string {
	short := 0
	for _, z := range sizes {
		if !z.Meets {
			short++
		}
	}
	switch short {
	case 0:
		return "fine\n"
	case 1:
		return fmt.Sprintf("fine, but 1 of %d choices falls short of the demand\n", len(sizes))
	}
	return fmt.Sprintf("fine, but %d of %d choices fall short of the demand\n", short, len(sizes))
}
