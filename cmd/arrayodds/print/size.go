package print

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/sim/study"
)

// Size writes what the cameras need, the fewest drives that hold it, the drives that
// somewhat more would take, and the choices to paste into the site file.
func Size(w io.Writer, z study.Suggestions) error {
	parts := []string{title(z.Site), cameras(z.Site), network(z.Site, z.Recorder), fittings(z)}
	parts = append(parts, notes(z)...)
	if len(z.Choices) > 0 {
		parts = append(parts, reaches(z), changes(z),
			paragraph("Choices to paste into the site file, of each layout the one that costs least:")+"\n"+site.ChoicesTOML(z.Choices))
	}
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// network compares the peak rate of the streams with the link of the recorder.
func network(s array.Site, r *array.Recorder) string {
	peak := func(s array.Site) string { return unit.FormatBitRate(8 * s.Demand().PeakRate) }
	text := "Network: " + peak(s)
	if s.Estimated() {
		text += " (" + between(peak(s.Lowest()), peak(s.Highest())) + ")"
	}
	text += " when every camera records at once"
	free := s.FreeLink(r)
	if math.IsNaN(free) {
		return paragraph(`%s; link = "1 Gbit/s" under [recorder] would be judged.`, text)
	}
	text += fmt.Sprintf(", of a link of %s: ", unit.FormatBitRate(r.Link))
	if s.Estimated() {
		text += fmt.Sprintf("%s of it stays free, %s.", share(free), between(share(s.Highest().FreeLink(r)), share(s.Lowest().FreeLink(r))))
	} else {
		text += fmt.Sprintf("%s of it stays free.", share(free))
	}
	switch worst := s.Highest().FreeLink(r); {
	case worst < 0:
		if free >= 0 {
			text += " At the high end"
		}
		text += " IT IS TOO SLOW."
	case worst < array.EnoughFree:
		text += fmt.Sprintf(" That is little: leave %s for packet headers, bursts, live viewing and export (common practice, no source).", share(array.EnoughFree))
	}
	return paragraph("%s", text)
}

// share returns a share in whole per cent, rounded down.
func share(x float64) string {
	if x < 0 {
		return "none"
	}
	return fmt.Sprintf("%.0f %%", math.Floor(100*x+1e-9))
}

// fittings returns the table of every drive in every layout.
func fittings(z study.Suggestions) string {
	columns := []column{{"drive", 11}, {"fewest drives\nin layout", 13}, {"drives", 0}}
	if z.Bays > 0 {
		columns = append(columns, column{fmt.Sprintf("fits in\n%d bays", z.Bays), 0})
	}
	columns = append(columns, column{"usable\nTB", 0}, column{"% of\ndue", 0})
	priced := slices.ContainsFunc(z.Fittings, func(f array.Fitting) bool { return f.Found && !math.IsNaN(f.Sizing.Purchase) })
	powered := slices.ContainsFunc(z.Fittings, func(f array.Fitting) bool { return f.Found && !math.IsNaN(f.Sizing.Watts) })
	if priced {
		columns = append(columns, column{cost(z.Site.Currency), 0})
	}
	if powered {
		columns = append(columns, column{"W", 0}, column{"heat\nBTU/h", 0}, column{"kWh\na year", 0})
	}
	needed := z.Site.Demand().Needed
	var rows [][]string
	for _, f := range z.Fittings {
		number := fmt.Sprint(f.Choice.Drives)
		if !f.Found {
			number = fmt.Sprintf("over %d", array.MaxDrives)
		}
		switch {
		case f.Low > 0 && f.High == 0:
			number += fmt.Sprintf("\n%d or more", f.Low)
		case f.Low != f.High:
			number += "\n" + between(drivesOrMore(f.Low), drivesOrMore(f.High))
		}
		name := f.Layout.String()
		if f.Found {
			name = layout(f.Choice)
		}
		if !f.Customary {
			name += fmt.Sprintf("\nwider than %d", z.Site.Width(f.Layout).Most)
		}
		row := []string{plain(f.Drive.Label), name, number}
		figures := make([]string, len(columns)-len(row))
		if f.Found {
			figures = figures[:0]
			if z.Bays > 0 {
				figures = append(figures, yes(f.Fits))
			}
			figures = append(figures, terabytes(f.Sizing.Usable), whole(int(100*f.Sizing.Usable/needed)))
			if priced {
				figures = append(figures, money(f.Sizing.Purchase))
			}
			if powered {
				figures = append(figures, size(f.Sizing.Watts), money(array.BTUPerHour(f.Sizing.Watts)), money(f.Sizing.EnergyPerYear()))
			}
		}
		rows = append(rows, append(row, figures...))
	}
	return layOut(columns, rows)
}

// drivesOrMore returns a number of drives, 0 being more than an array may have.
func drivesOrMore(n int) string {
	if n == 0 {
		return fmt.Sprintf("over %d", array.MaxDrives)
	}
	return fmt.Sprint(n)
}

// notes says what the table rests on and what it leaves out.
func notes(z study.Suggestions) []string {
	var all []string
	if z.Site.Estimated() {
		low, high := z.Site.Lowest().Demand(), z.Site.Highest().Demand()
		all = append(all, paragraph("~ Bit rates are estimated from pixels, frames and codec (common practice, no source): the cameras may need %s TB. Drives are counted for the likely figure, beneath it for the low and the high one. Measure the streams before you buy.",
			between(terabytes(low.Needed), terabytes(high.Needed))))
	}
	all = append(all, paragraph("Hot spares are not counted, nor is room for growth. By custom groups have at most %s (common practice, no source); what is wider says so. %s", array.WidthWords(), array.UnaskedWords()))
	for _, text := range z.LeftOut {
		all = append(all, paragraph("%s", plain(text)))
	}
	short := 0
	for _, f := range z.Fittings {
		if !f.Found || !f.Fits {
			short++
		}
	}
	switch {
	case short == len(z.Fittings) && z.Bays > 0:
		all = append(all, paragraph("Nothing fits in %d bays: larger drives, a recorder with more bays, or less to keep.", z.Bays))
	case short == len(z.Fittings):
		all = append(all, paragraph("Nothing holds it with %d drives.", array.MaxDrives))
	}
	return all
}

// reaches returns the table of how far back each camera group's footage could reach
// in the suggested choices.
func reaches(z study.Suggestions) string {
	var rows [][]string
	for i, c := range z.Choices {
		s, err := z.Site.Size(c)
		if err != nil {
			continue // every suggestion was sized before
		}
		var all []string
		for _, hours := range z.Site.PossibleRetentionByGroup(s.Usable) {
			all = append(all, days(hours))
		}
		rows = append(rows, []string{fmt.Sprint(i + 1), plain(c.Label), strings.Join(all, ", ")})
	}
	return layOut([]column{{"", 0}, {"suggested", 38}, {"could reach back, days of cameras 1, 2, ...", 50}}, rows)
}

// mostAcross is how many suggestions stand side by side.
const mostAcross = 10

// changes returns the table of drives that each suggestion would take for somewhat
// more footage.
func changes(z study.Suggestions) string {
	columns := []column{{"", 40}, {"needs\nTB", 0}}
	across := z.Choices[:min(len(z.Choices), mostAcross)]
	for i := range across {
		columns = append(columns, column{fmt.Sprint(i + 1), 0})
	}
	row := func(label string, needed float64) []string {
		cells := []string{plain(label), terabytes(needed)}
		for _, c := range across {
			more, _ := c.Fewest(needed, z.Site.Width(c.Layout))
			cells = append(cells, drivesOrMore(more.Drives))
		}
		return cells
	}
	rows := [][]string{row("as it is: drives of the suggestion", z.Site.Demand().Room)}
	for _, ch := range z.Site.Changes() {
		rows = append(rows, row(ch.Label, ch.Needed))
	}
	return layOut(columns, rows)
}
