package vary

import (
	"fmt"
	"math"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// tables returns every figure of every choice.
func (v sweep) tables() []page.Table {
	if len(v.Inputs) == 2 {
		corners := v.cornersTable()
		if v.against() >= 0 && len(v.Curves) > 1 {
			return []page.Table{corners, v.cornersAgainst(corners)}
		}
		return []page.Table{corners}
	}
	if v.Inputs[0].Values == nil {
		return []page.Table{v.sideBySide()}
	}
	t := []page.Table{
		v.listTable("Chance of losing footage", "A loss in "+page.ServiceLife(v.Site), "odds and 95 % interval", "", func(p study.Point) string { return page.OddsText(p.Loss) }),
		v.listTable("Beside the site file as it stands", "Times as likely", "ratio and 95 % interval",
			"The loss chance at each value ÷ the same choice's as the site file has it, with the interval of the ratio from shared random streams.",
			func(p study.Point) string { return timesText(p.ToOwn) }),
	}
	if v.against() >= 0 && len(v.Curves) > 1 {
		beside := v.listTable("Beside "+label.Short(v.Against), "Times as likely", "ratio and 95 % interval",
			"The loss chance ÷ that of the choice held against, at the same value.",
			func(p study.Point) string { return timesText(p.Against) })
		beside.Rows[v.against()].Cells = []page.Cell{{Main: "the one held against"}}
		t = append(t, beside)
	}
	if v.hasClips() {
		t = append(t, v.listTable("Chance that a clip asked for is missing", "A clip missing", "odds and 95 % interval", "", func(p study.Point) string { return page.OddsText(p.Clip) }))
	}
	return append(t, v.listTable("Drives and cost", "To buy", "drives, purchase in "+figure.CurrencyName(v.Site.Currency), "", v.bought))
}

// timesText returns a ratio with its interval, in a line.
func timesText(e estimate.Estimate) string {
	if math.IsNaN(e.Value) {
		return "not known"
	}
	if e.Low == e.High || math.IsInf(e.Value, 0) {
		return page.Unbroken(figure.Ratio(e))
	}
	return page.Unbroken(figure.Ratio(e) + " (" + figure.RatioInterval(e) + ")")
}

// bought returns what a point costs.
func (v sweep) bought(p study.Point) string {
	text := figure.Drives(p.Drives, p.Groups)
	if !math.IsNaN(p.Purchase) {
		text += ", " + figure.Money(p.Purchase, v.Site.Currency)
	}
	if !p.Meets {
		text += ", does not hold the footage"
	}
	return text
}

func (v sweep) hasClips() bool {
	for _, c := range v.Curves {
		for _, p := range c.Points {
			if p.Absent == "" && !math.IsNaN(p.Clip.Value) {
				return true
			}
		}
	}
	return false
}

// listTable has a row a choice, and in it a line a value.
func (v sweep) listTable(title, name, unit, intro string, of func(study.Point) string) page.Table {
	t := page.Table{Title: title, Intro: intro, Columns: []page.Column{{Name: name, Unit: unit}}}
	for i, m := range v.marks() {
		var lines []string
		for at, p := range v.Curves[i].Points {
			said := of(p)
			if p.Absent != "" {
				said = "none: " + label.OneLine(p.Absent)
			}
			lines = append(lines, v.valueText(at)+": "+said)
		}
		list := merged(lines, v, of, i)
		if points := v.Curves[i].Points; v.Curves[i].Untouched() {
			list = []string{"every " + v.valueWord() + ": " + of(points[0])}
		}
		t.Rows = append(t.Rows, page.Row{Mark: m, Cells: []page.Cell{{List: list}}, Warnings: v.warningsOf(i)})
	}
	return t
}

// merged joins neighbouring values of which one and the same is said, so that a
// price that never changes takes one line.
func merged(lines []string, v sweep, of func(study.Point) string, choice int) []string {
	points := v.Curves[choice].Points
	said := func(i int) string { return points[i].Absent + "\n" + of(points[i]) }
	var out []string
	for from := 0; from < len(lines); {
		to := from
		for to+1 < len(lines) && said(to+1) == said(from) {
			to++
		}
		if to == from || len(v.Inputs) == 2 {
			out, from = append(out, lines[from]), from+1
			continue
		}
		first := v.valueText(from)
		out = append(out, first+" to "+v.valueText(to)+lines[from][len(first):])
		from = to + 1
	}
	return out
}

// sideBySide has a row a choice and value, for values that are words: risk
// beside drives and cost.
func (v sweep) sideBySide() page.Table {
	t := page.Table{Title: "Every value side by side", Intro: "Odds and ratios with their 95 % interval below. The ratio is to the same choice as the site file has it.",
		Columns: []page.Column{{Name: figure.Capital(label.Short(called(v.Inputs[0])))}, {Name: "Drives", Unit: "in all"}, {Name: "Purchase", Unit: "in " + figure.CurrencyName(v.Site.Currency)}, {Name: "A loss in " + page.ServiceLife(v.Site), Unit: "odds"}, {Name: "Times as likely", Unit: "as it stands"}}}
	against, clips := v.against() >= 0 && len(v.Curves) > 1, v.hasClips()
	if against {
		t.Columns = append(t.Columns, page.Column{Name: "Times as likely", Unit: "as the one held against"})
	}
	if clips {
		t.Columns = append(t.Columns, page.Column{Name: "A clip missing", Unit: "odds"})
	}
	for i, m := range v.marks() {
		points := v.Curves[i].Points
		one := v.Curves[i].Untouched()
		if one {
			points = points[:1]
		}
		for at, p := range points {
			value := page.Cell{Main: v.valueText(at)}
			if one {
				value.Main = "every value"
			}
			if p.Absent != "" {
				value.Sub = label.OneLine(p.Absent)
				cells := []page.Cell{value}
				for range t.Columns[1:] {
					cells = append(cells, page.Cell{Main: "none"})
				}
				t.Rows = append(t.Rows, page.Row{Mark: m, Cells: cells})
				continue
			}
			cells := []page.Cell{value, drivesCell(p), page.MoneyCell(p.Purchase), page.ChanceCell(p.Loss), page.RatioCell(p.ToOwn)}
			if against {
				cells = append(cells, againstCell(p, i == v.against()))
			}
			if clips {
				cells = append(cells, page.ChanceCell(p.Clip))
			}
			m := m
			m.Hollow = !p.Meets
			r := page.Row{Mark: m, Cells: cells}
			r.Warnings = page.OneLines(p.Warnings)
			t.Rows = append(t.Rows, r)
		}
	}
	return t
}

// drivesCell returns the drives with the groups that they are in, where those are several.
func drivesCell(p study.Point) page.Cell {
	c := page.Cell{Main: figure.Whole(float64(p.Drives))}
	if p.Groups > 1 {
		c.Sub = "in " + figure.Count(p.Groups, "group", "groups")
	}
	return c
}

func againstCell(p study.Point, itself bool) page.Cell {
	if itself {
		return page.Cell{Main: "held against"}
	}
	return page.RatioCell(p.Against)
}

// breakEvenTable returns the values at which the goal is reached.
func (v sweep) breakEvenTable() page.Table {
	in := v.Inputs[0]
	unit := "95 % interval below"
	if in.Unit != "" {
		unit = "in " + in.Unit + ", " + unit
	}
	t := page.Table{Title: "Break-even: " + label.OneLine(v.BreakEven.Goal),
		Intro:   fmt.Sprintf("The value of %s at which each choice comes to this, all else as in the site file; solved by simulation, with the interval that its noise leaves.", spoken(in)),
		Columns: []page.Column{{Name: "Value"}, {Name: "Interval", Unit: unit}, {Name: "In words"}}}
	t.Columns[1].Unit = "95 %"
	if in.Unit != "" {
		t.Columns[1].Unit += ", " + in.Unit
	}
	for i, r := range v.BreakEven.Rows {
		m := draw.MarkOf(v.placeOf(r.Choice.Label, i), r.Choice.Label)
		value, interval := page.Cell{Main: "none in the range"}, page.Cell{Main: "none"}
		if !math.IsNaN(r.Value.Value) {
			value.Main = label.OneLine(r.Text)
			if value.Main == "" {
				value.Main = figure.Number(r.Value)
			}
			interval.Main = page.Unbroken(figure.RatioInterval(r.Value))
		}
		words := page.Cell{Main: figure.Capital(label.OneLine(r.Words))}
		t.Rows = append(t.Rows, page.Row{Mark: m, Cells: []page.Cell{value, interval, words}})
	}
	return t
}

// placeOf returns the place of a choice among the curves, or else the one given.
func (v sweep) placeOf(label string, or int) int {
	for i, c := range v.Curves {
		if c.Choice.Label == label {
			return i
		}
	}
	return or
}
