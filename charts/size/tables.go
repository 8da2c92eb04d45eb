package size

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/unit"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	"arrayodds/sim/sizing"
)

// bare returns the mark of what is numbered and has no symbol.
func bare(place int, name string) draw.Mark {
	m := draw.MarkOf(place, name)
	m.Symbol = draw.Symbol{Shape: draw.NoShape}
	return m
}

// needTable returns how the need is made up of the groups of cameras.
func (z sized) needTable() page.Table {
	needed := z.Site.Demand().Needed
	t := page.Table{Title: "By group of cameras", Of: "Cameras", Columns: []page.Column{{Name: "Cameras"}, {Name: "Bit rate", Unit: "of one"},
		{Name: "Recorded", Unit: "% of the time"}, {Name: "Kept", Unit: "days"}, {Name: "Needed", Unit: "TB"}, {Name: "Share", Unit: "% of the whole"}},
		Intro: "TB is 10¹² bytes. Needed is cameras × bit rate × the time recorded × the days kept."}
	for i, c := range z.Site.Cameras {
		rate, need := page.Cell{Main: unit.FormatBitRate(c.BitRate)}, page.ExactCell(c.Needed()/array.TB)
		if c.Estimated() {
			low, _, high := c.Picture.BitRate()
			rate.Sub = fmt.Sprintf("estimated: %s to %s", unit.FormatBitRate(low), unit.FormatBitRate(high))
		}
		t.Rows = append(t.Rows, page.Row{Mark: bare(i, c.Label), Cells: []page.Cell{
			{Main: figure.Whole(float64(c.Count))}, rate, page.ExactCell(100 * c.Recorded()), page.ExactCell(c.Retention / 24), need, {Main: fmt.Sprintf("%.0f", 100*c.Needed()/needed)},
		}})
	}
	return t
}

// designTables returns the designs that fit, those that do not, and what would be enough.
func (z sized) designTables() []page.Table {
	var all []page.Table
	title := "Designs that hold it"
	if z.Bays > 0 {
		title += fmt.Sprintf(" in %s", unit.Count(z.Bays, "bay", "bays"))
	}
	fit := z.designTable(title, "The fewest drives of each model in each layout. Those with a symbol come first and are suggested: of each layout the one that costs least.", func(f array.Fitting) bool { return f.Fits })
	if len(fit.Rows) > 0 {
		all = append(all, fit)
	}
	if len(z.Short) > 0 {
		all = append(all, z.shortTable())
	}
	rest := z.designTable("Designs that hold it and do not fit", "", func(f array.Fitting) bool { return f.Found && !f.Fits })
	if len(rest.Rows) > 0 {
		all = append(all, rest)
	}
	return all
}

// designTable returns a table of some of the fittings.
func (z sized) designTable(title, intro string, of func(array.Fitting) bool) page.Table {
	some := func(given func(f array.Fitting) float64) bool {
		return slices.ContainsFunc(z.Fittings, func(f array.Fitting) bool { return f.Found && !math.IsNaN(given(f)) })
	}
	priced := some(func(f array.Fitting) float64 { return f.Sizing.Purchase })
	powered := some(func(f array.Fitting) float64 { return f.Sizing.Watts })
	rated := some(z.Rated)
	t := page.Table{Title: title, Of: "Design", Intro: intro, Columns: []page.Column{{Name: "Width", Unit: "drives in a group"}, {Name: "Drives"}, {Name: "Usable", Unit: "TB"}, {Name: "Of what is due", Unit: "%"}}}
	if z.Spares > 0 {
		t.Columns[1].Unit = "and hot spares"
	}
	if priced {
		t.Columns = append(t.Columns, page.Column{Name: "Purchase", Unit: figure.CurrencyName(z.Site.Currency)})
	}
	if powered {
		t.Columns = append(t.Columns, page.Column{Name: "Power", Unit: "W"}, page.Column{Name: "Energy", Unit: "kWh a year"})
	}
	if rated {
		t.Columns = append(t.Columns, page.Column{Name: "Wear", Unit: "% of rating"})
	}
	room := z.Site.Demand().Room
	for _, f := range z.suggestedFirst() {
		if !of(f) {
			continue
		}
		m := bare(len(t.Rows), f.Choice.Label)
		if n := z.Suggested(f); n > 0 {
			m = draw.MarkOf(n-1, f.Choice.Label)
		}
		cells := []page.Cell{z.widthCell(f), z.drivesCell(f), page.ExactCell(f.Sizing.Usable / array.TB), {Main: fmt.Sprintf("%.0f", math.Floor(100*f.Sizing.Usable/room))}}
		if priced {
			cells = append(cells, orUnknown(f.Sizing.Purchase, page.MoneyCell))
		}
		if powered {
			heat := orUnknown(f.Sizing.Watts, page.ExactCell)
			if !math.IsNaN(f.Sizing.Watts) {
				heat.Sub = figure.Whole(array.BTUPerHour(f.Sizing.Watts)) + "\u00a0BTU/h"
			}
			cells = append(cells, heat, orUnknown(f.Sizing.EnergyPerYear(), page.MoneyCell))
		}
		if rated {
			cells = append(cells, z.wearCell(f))
		}
		t.Rows = append(t.Rows, page.Row{Mark: m, Cells: cells})
	}
	return t
}

// suggestedFirst returns the fittings, those that are suggested in the order of their
// numbers before the others.
func (z sized) suggestedFirst() []array.Fitting {
	all := slices.Clone(z.Fittings)
	place := func(f array.Fitting) int {
		if n := z.Suggested(f); n > 0 {
			return n
		}
		return len(z.Choices) + 1
	}
	slices.SortStableFunc(all, func(a, b array.Fitting) int { return cmp.Compare(place(a), place(b)) })
	return all
}

func orUnknown(x float64, cell func(float64) page.Cell) page.Cell {
	if math.IsNaN(x) {
		return page.UnknownCell()
	}
	return cell(x)
}

// widthCell says how wide groups are, and whether that is customary.
func (z sized) widthCell(f array.Fitting) page.Cell {
	n := f.Choice.Groups
	c := page.Cell{Main: fmt.Sprint(f.Choice.Drives / n)}
	switch {
	case f.Layout.Level == array.JBOD:
		c.Main = "each by itself"
	case n > 1:
		c.Sub = figure.Count(n, "group", "groups")
	}
	if !f.Customary {
		wide := fmt.Sprintf("wider than %d, which is customary", z.Site.Width(f.Layout).Most)
		if c.Sub != "" {
			wide = c.Sub + "; " + wide
		}
		c.Sub = wide
	}
	return c
}

// drivesCell returns the number of drives, with those of the ends of an estimated demand.
func (z sized) drivesCell(f array.Fitting) page.Cell {
	c := page.Cell{Main: fmt.Sprint(f.Choice.Drives)}
	if f.Choice.HotSpares > 0 {
		c.Main = fmt.Sprintf("%d + %d", f.Choice.Drives, f.Choice.HotSpares)
	}
	if f.Low != f.High {
		c.Sub = fmt.Sprintf("%s to %s, estimated", drivesOrMore(f.Low), drivesOrMore(f.High))
	}
	return c
}

// drivesOrMore returns a number of drives, 0 being more than an array may have.
func drivesOrMore(n int) string {
	if n == 0 {
		return fmt.Sprintf("over %d", array.MaxDrives)
	}
	return fmt.Sprint(n)
}

// wearCell says how much of its rating a drive is asked for, and what makes that up.
func (z sized) wearCell(f array.Fitting) page.Cell {
	share := z.Rated(f)
	if math.IsNaN(share) {
		return page.Cell{Main: "not rated"}
	}
	w := z.Workload(f)
	c := page.Cell{Main: figure.Whole(math.Ceil(100*share - 1e-9)),
		Sub: fmt.Sprintf("TB a year: %s footage, %s scrubs, %s rebuilds", perYear(w.Footage), perYear(w.Scrubs), perYear(w.Rebuilds))}
	if share > 1 {
		c.Main += ": over"
	}
	return c
}

// perYear returns bytes in TB, to three digits.
func perYear(bytes float64) string { return unit.Digits(bytes/array.TB, 3) }

// shortTable returns the layouts that nothing fits in, and what would be enough.
func (z sized) shortTable() page.Table {
	t := page.Table{Title: "Layouts that do not fit, and what would be enough", Of: "Layout",
		Intro: "What there is room for, with the largest drives there are. Each of the last three would be enough by itself, and is the least that would.",
		Columns: []page.Column{{Name: "Room for"}, {Name: "Usable", Unit: "TB"}, {Name: "Reaches back"},
			{Name: "Drives", Unit: "TB each"}, {Name: "or bays"}, {Name: "or bit rate", Unit: "% of it"}}}
	for i, s := range z.Short {
		cells := []page.Cell{{Main: "too few bays"}, {Main: "none"}, {Main: "none"}, {Main: "no size"}, {Main: drivesOrMore(s.Bays)}, {Main: "none"}}
		if s.Choice.Drives > 0 {
			room := page.Cell{Main: figure.Count(s.Choice.Drives, "drive", "drives"), Name: label.OneLine(s.Choice.Drive.Label)}
			if !s.Customary {
				room.Sub = fmt.Sprintf("wider than %d, which is customary", z.Site.Width(s.Layout).Most)
			}
			cells = []page.Cell{room, page.ExactCell(s.Sizing.Usable / array.TB), {Main: figure.Days(s.Sizing.Retention)},
				{Main: sizing.EnoughTB(s)}, {Main: drivesOrMore(s.Bays)}, {Main: sizing.EnoughBitRate(s)}}
		}
		t.Rows = append(t.Rows, page.Row{Mark: bare(i, s.Layout.String()), Cells: cells})
	}
	return t
}

// mostAcross is how many suggestions stand side by side.
const mostAcross = 8

// changesTable returns the drives that each suggestion would take for somewhat more.
func (z sized) changesTable() page.Table {
	t := page.Table{Title: "Drives for somewhat more", Of: "Change", Columns: []page.Column{{Name: "Needed", Unit: "TB"}},
		Intro: "Hot spares are not among these drives."}
	across := z.Choices[:min(len(z.Choices), mostAcross)]
	for i, c := range across {
		t.Columns = append(t.Columns, page.Column{Name: c.Layout.String(), Unit: fmt.Sprintf("suggestion %d", i+1)})
	}
	changes := append([]array.Change{{Label: "As it is", Needed: z.Site.Demand().Room}}, z.Site.Changes()...)
	for i, ch := range changes {
		cells := []page.Cell{page.ExactCell(ch.Needed / array.TB)}
		for _, c := range across {
			more, _ := z.Site.MoreOf(c, ch.Needed)
			cells = append(cells, page.Cell{Main: drivesOrMore(more.Drives)})
		}
		t.Rows = append(t.Rows, page.Row{Mark: bare(i, ch.Label), Cells: cells})
	}
	return t
}

// reachTable returns how far back each group of cameras could reach.
func (z sized) reachTable() page.Table {
	t := page.Table{Title: "How far back it could reach", Of: "Suggestion", Columns: []page.Column{{Name: "By group of cameras"}},
		Intro: "With all the room used, and every retention raised alike."}
	for i, c := range z.Choices {
		s, err := z.Site.Size(c)
		if err != nil {
			continue // every suggestion was sized before
		}
		var list []string
		for k, hours := range z.Site.PossibleRetentionByGroup(s.Usable) {
			list = append(list, fmt.Sprintf("%s: %s", label.Short(z.Site.Cameras[k].Label), figure.Days(hours)))
		}
		t.Rows = append(t.Rows, page.Row{Mark: draw.MarkOf(i, c.Label), Cells: []page.Cell{{List: list}}})
	}
	return t
}
