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
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// Size writes what the cameras need, the fewest drives that hold it, the drives that
// somewhat more would take, and the choices to paste into the site file.
func Size(w io.Writer, z study.Suggestions) error {
	parts := []string{title(z.Site), cameras(z.Site), network(z.Site, z.Recorder)}
	if z.Recorder != nil && z.Recorder.WriteLimit > 0 {
		parts = append(parts, writeLimit(z.Site, z.Recorder))
	}
	parts = append(parts, fittings(z))
	parts = append(parts, notes(z)...)
	if len(z.Short) > 0 {
		parts = append(parts, shortfallsOf(z))
	}
	if len(z.Choices) > 0 {
		parts = append(parts, reaches(z), changes(z),
			paragraph("Choices to paste into the site file, of each layout the one that costs least:")+"\n"+site.ChoicesTOML(z.Choices))
	}
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// writeLimit compares the peak rate of the streams with what the recorder takes in.
func writeLimit(s array.Site, r *array.Recorder) string {
	rate := func(s array.Site) string { return unit.FormatRate(s.Demand().PeakRate) }
	text := fmt.Sprintf("Writing: %s at the peak, of the recorder's limit of %s", rate(s), unit.FormatRate(r.WriteLimit))
	if s.Estimated() {
		text = fmt.Sprintf("Writing: %s (%s) at the peak, of the recorder's limit of %s", rate(s), between(rate(s.Lowest()), rate(s.Highest())), unit.FormatRate(r.WriteLimit))
	}
	switch {
	case s.Demand().PeakRate > r.WriteLimit:
		text += ": IT IS TOO MUCH."
	case s.Highest().Demand().PeakRate > r.WriteLimit:
		text += ": at the high end IT IS TOO MUCH."
	default:
		text += fmt.Sprintf(": %s of it stays free.", share(1-s.Demand().PeakRate/r.WriteLimit))
	}
	return paragraph("%s", text)
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
	some := func(given func(f array.Fitting) float64) bool {
		return slices.ContainsFunc(z.Fittings, func(f array.Fitting) bool { return f.Found && !math.IsNaN(given(f)) })
	}
	priced := some(func(f array.Fitting) float64 { return f.Sizing.Purchase })
	powered := some(func(f array.Fitting) float64 { return f.Sizing.Watts })
	rated := some(z.Rated)
	if priced {
		columns = append(columns, column{cost(z.Site.Currency), 0})
	}
	if powered {
		columns = append(columns, column{"W", 0}, column{"heat\nBTU/h", 0}, column{"kWh\na year", 0})
	}
	if rated {
		columns = append(columns, column{"% of\nrating", 0})
	}
	room := z.Site.Demand().Room
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
			figures = append(figures, terabytes(f.Sizing.Usable), whole(int(100*f.Sizing.Usable/room)))
			if priced {
				figures = append(figures, money(f.Sizing.Purchase))
			}
			if powered {
				figures = append(figures, size(f.Sizing.Watts), money(array.BTUPerHour(f.Sizing.Watts)), money(f.Sizing.EnergyPerYear()))
			}
			if rated {
				figures = append(figures, rating(z.Rated(f)))
			}
		}
		rows = append(rows, append(row, figures...))
	}
	return layOut(columns, rows)
}

// rating returns the share of a rating that is taken, in per cent and rounded up; above
// all of it in a way that is not overlooked.
func rating(share float64) string {
	switch per := math.Ceil(100*share - 1e-9); {
	case math.IsNaN(share):
		return ""
	case share > 1:
		return fmt.Sprintf("OVER: %.0f", per)
	default:
		return fmt.Sprintf("%.0f", per)
	}
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
	all = append(all, counted(z))
	if slices.ContainsFunc(z.Fittings, func(f array.Fitting) bool { return !math.IsNaN(z.Rated(f)) }) {
		all = append(all, paragraph("%% of rating: what a drive reads and writes in a year, of the workload that it is rated for. Footage counts as written once, and parity and copies with it; a scrub reads each drive at the site's interval (%s); a rebuild reads as many drives as a group has of footage, and writes one. Footage that is viewed or exported comes on top.", scrubWords(z)))
	}
	for _, text := range z.LeftOut {
		all = append(all, paragraph("%s", plain(text)))
	}
	switch {
	case z.Fit():
	case z.Bays > 0:
		all = append(all, paragraph("Nothing fits in %d bays: larger drives, a recorder with more bays, or less to keep.", z.Bays))
	default:
		all = append(all, paragraph("Nothing holds it with %d drives.", array.MaxDrives))
	}
	return all
}

// scrubWords says how often the site scrubs.
func scrubWords(z study.Suggestions) string {
	if z.Care.Scrub == nil {
		return "none"
	}
	return unit.FormatHours(z.ScrubHours())
}

// counted says what is counted among the drives, and how wide groups are by custom.
func counted(z study.Suggestions) string {
	text := "Hot spares are not counted (--spares NUMBER)"
	if z.Spares > 0 {
		text = fmt.Sprintf("With %s beside the drives, counted in the bays, the cost and the power", unit.Count(z.Spares, "hot spare", "hot spares"))
	}
	switch {
	case z.Site.Growth > 0:
		text += fmt.Sprintf("; room to grow of %s is counted.", unit.FormatPercent(z.Site.Growth, 4))
	case z.Spares > 0:
		text += "; room for growth is not counted."
	default:
		text += ", nor is room for growth."
	}
	if r := z.Recorder; r != nil && r.Licences.Cost(z.Site.CameraCount()) > 0 {
		cost := r.Licences.Cost(z.Site.CameraCount())
		text += fmt.Sprintf(" In the cost are %s for the licences of %s.", strings.TrimRight(strings.ReplaceAll(money(cost), " ", "\u00a0")+" "+plain(z.Site.Currency), " "), figure.Count(z.Site.CameraCount()-r.Licences.Included, "camera", "cameras"))
	}
	source := "common practice, no source"
	if len(z.Site.Widths) > 0 {
		source = "as the site file has it; else common practice, no source"
	}
	return paragraph("%s By custom groups have at most %s (%s); what is wider says so, and takes longer to rebuild beside more drives that may fail. %s", text, z.Site.WidthWords(), source, array.UnaskedWords())
}

// shortfallsOf returns the table of the layouts that nothing fits in: what they would
// hold, and what would be enough.
func shortfallsOf(z study.Suggestions) string {
	columns := []column{{"in what there is\nroom for", 26}, {"usable\nTB", 0}, {"reaches back,\ndays", 0}, {"enough would be:\ndrives of TB", 0}, {"or\nbays", 0}, {"or % of\nthe bit rate", 0}}
	var rows [][]string
	for _, s := range z.Short {
		bays := drivesOrMore(s.Bays)
		if s.Choice.Drives == 0 {
			rows = append(rows, []string{s.Layout.String() + ": too few bays", "", "", "none", bays, "none"})
			continue
		}
		name := fmt.Sprintf("%s, %d x %s", layout(s.Choice), s.Choice.Drives, plain(s.Choice.Drive.Label))
		if !s.Customary {
			name += fmt.Sprintf("\nwider than %d", z.Site.Width(s.Layout).Most)
		}
		rows = append(rows, []string{name, terabytes(s.Sizing.Usable), days(s.Sizing.Retention), upward(s.Capacity / array.TB), bays, fmt.Sprintf("%.0f", math.Floor(100*s.BitRate))})
	}
	return paragraph("Layouts that do not fit, with the largest drives there are; each of the last three would be enough by itself:") + "\n" + layOut(columns, rows)
}

// upward returns a figure to one decimal place, rounded up.
func upward(x float64) string { return fmt.Sprintf("%.1f", math.Ceil(10*x-1e-9)/10) }

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
			more, _ := z.Site.MoreOf(c, needed)
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
