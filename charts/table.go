package charts

import (
	"math"
	"strings"

	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// table is figures by choice. On a phone each row becomes a card, so every cell
// is read with the head of its column.
type table struct {
	Title string
	Of    string // what a row is of; a choice where empty
	Intro string
	Heads []head
	Rows  []row
}

// head is a column: what it is and its unit.
type head struct{ Name, Unit string }

// row is one choice.
type row struct {
	Mark     mark
	Cells    []cell
	Warnings []string // why the figures of this row should not be trusted
}

// cell is one figure with what belongs to it: its interval, or words.
type cell struct {
	Main string
	Sub  string
	Name string   // a label of the site file that belongs to it
	List []string // in place of Main: several short lines
}

// estimated is an estimate with its interval.
func estimated(e estimate.Estimate) cell {
	if math.IsNaN(e.Value) {
		return notKnown()
	}
	return cell{Main: firm(figure.Number(e)), Sub: firm(figure.Interval(e))}
}

// chance is an estimated chance as odds, with the interval as odds and the
// figure itself.
func chance(e estimate.Estimate) cell {
	if math.IsNaN(e.Value) {
		return notKnown()
	}
	if e.High == 0 {
		return cell{Main: "none"}
	}
	sub := figure.OddsInterval(e)
	if e.Value > 0 {
		sub += "; " + figure.Number(e)
	}
	return cell{Main: firm(figure.Odds(e)), Sub: firm(sub)}
}

// firm keeps a number and its words in one line: a table breaks between
// numbers, not within them.
func firm(s string) string { return unbroken.Replace(s) }

var unbroken = strings.NewReplacer(" in ", "\u00a0in\u00a0", " × ", "\u00a0×\u00a0",
	" million", "\u00a0million", " billion", "\u00a0billion", " trillion", "\u00a0trillion")

// alone is said of an interval of one number that was found by sampling: no
// other is as likely, but it is no closed form.
const alone = "the interval holds this number alone"

// quantile is an estimated quantile. A sample's quantile and both ends may be
// one and the same.
func quantile(e estimate.Estimate) cell {
	c := estimated(e)
	if e.Low == e.High && e.Value > 0 {
		c.Sub = alone
	}
	return c
}

// counted is an estimate of a whole number, times a unit. Its interval may hold
// no other number, and is no closed form for that.
func counted(e estimate.Estimate, unit float64) cell {
	if math.IsNaN(e.Value) {
		return notKnown()
	}
	sub := figure.Whole(e.Low*unit) + " to " + figure.Whole(e.High*unit)
	if e.Low == e.High {
		sub = alone
	}
	return cell{Main: figure.Whole(e.Value * unit), Sub: sub}
}

func notKnown() cell { return cell{Main: "not known"} }

// exact is a figure without chance in it.
func exact(x float64) cell { return cell{Main: figure.Exact(x)} }

func money(x float64) cell { return cell{Main: figure.Whole(x)} }

// rowsOf makes a row a choice.
func (r report) rowsOf(cells func(study.Outcome) []cell, warn bool) []row {
	rows := make([]row, len(r.Outcomes))
	for i, m := range r.marks() {
		rows[i] = row{Mark: m, Cells: cells(r.Outcomes[i])}
		if warn {
			rows[i].Warnings = warningsOf(r.Outcomes[i])
		}
	}
	return rows
}

// tables is every figure of every choice, by what is asked of it.
func (r report) tables() []table {
	t := []table{r.roomTable()}
	if r.hasCameras() {
		t = append(t, r.retentionTable())
	}
	t = append(t, r.lossTable(), r.curveTable())
	if r.hasCameras() {
		t = append(t, r.missingTable())
	}
	if r.Site.Estimated() {
		t = append(t, r.estimatedTable())
	}
	return append(t, r.destroyedTable(), r.workTable(), r.moneyTable(), r.trustTable())
}
