package print

import (
	"fmt"
	"io"
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site/rewrite"
	"arrayodds/sim/sizing"
)

// Size writes what the cameras need, the fewest drives that hold it, the drives that
// somewhat more would take, and the choices to paste into the site file.
func Size(w io.Writer, z sizing.Suggestions) error {
	parts := []string{title(z.Site), cameras(z.Site)}
	parts = append(parts, said(z.NetworkWords(), z.WriteLimitWords())...)
	parts = append(parts, fittings(z))
	parts = append(parts, notes(z)...)
	if len(z.Short) > 0 {
		parts = append(parts, shortfallsOf(z))
	}
	if len(z.Choices) > 0 {
		parts = append(parts, reaches(z), changes(z),
			paragraph("Choices to paste into the site file, of each layout the one that costs least:")+"\n"+rewrite.Choices(z.Choices))
	}
	_, err := io.WriteString(w, strings.Join(parts, "\n"))
	return err
}

// fittings returns the table of every drive in every layout.
func fittings(z sizing.Suggestions) string {
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
func notes(z sizing.Suggestions) []string {
	estimated := z.EstimatedWords()
	if estimated != "" {
		estimated = "~ " + estimated
	}
	return said(slices.Concat([]string{estimated, z.CountedWords(), z.RatingWords()}, z.LeftOut, []string{z.NoneWords()})...)
}

// said returns a paragraph of each text that is not empty.
func said(texts ...string) []string {
	var all []string
	for _, text := range texts {
		if text != "" {
			all = append(all, paragraph("%s", plain(text)))
		}
	}
	return all
}

// shortfallsOf returns the table of the layouts that nothing fits in: what they would
// hold, and what would be enough.
func shortfallsOf(z sizing.Suggestions) string {
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
		rows = append(rows, []string{name, terabytes(s.Sizing.Usable), days(s.Sizing.Retention), sizing.EnoughTB(s), bays, sizing.EnoughBitRate(s)})
	}
	return paragraph("Layouts that do not fit, with the largest drives there are; each of the last three would be enough by itself:") + "\n" + layOut(columns, rows)
}

// reaches returns the table of how far back each camera group's footage could reach
// in the suggested choices.
func reaches(z sizing.Suggestions) string {
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
func changes(z sizing.Suggestions) string {
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
