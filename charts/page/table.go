package page

import (
	"math"
	"strings"

	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// Table is figures by choice. On a phone each row becomes a card, so every cell
// is read with the head of its column.
type Table struct {
	Title string
	Of    string // what a row is of; a choice where empty
	Intro string
	Heads []Head
	Rows  []Row
}

// Head is a column: what it is and its unit.
type Head struct{ Name, Unit string }

// Row is one choice.
type Row struct {
	Mark     draw.Mark
	Cells    []Cell
	Warnings []string // why the figures of this row should not be trusted
}

// Cell is one figure with what belongs to it: its interval, or words.
type Cell struct {
	Main string
	Sub  string
	Name string   // a label of the site file that belongs to it
	List []string // in place of Main: several short lines
}

// Estimated is an estimate with its interval.
func Estimated(e estimate.Estimate) Cell {
	if math.IsNaN(e.Value) {
		return NotKnown()
	}
	return Cell{Main: Firm(figure.Number(e)), Sub: Firm(figure.Interval(e))}
}

// Chance is an estimated chance as odds, with the interval as odds and the
// figure itself.
func Chance(e estimate.Estimate) Cell {
	if math.IsNaN(e.Value) {
		return NotKnown()
	}
	if e.High == 0 {
		return Cell{Main: "none"}
	}
	sub := figure.OddsInterval(e)
	if e.Value > 0 {
		sub += "; " + figure.Number(e)
	}
	return Cell{Main: Firm(figure.Odds(e)), Sub: Firm(sub)}
}

// Firm keeps a number and its words in one line: a table breaks between
// numbers, not within them.
func Firm(s string) string { return unbroken.Replace(s) }

var unbroken = strings.NewReplacer(" in ", "\u00a0in\u00a0", " × ", "\u00a0×\u00a0",
	" million", "\u00a0million", " billion", "\u00a0billion", " trillion", "\u00a0trillion")

// alone is said of an interval of one number that was found by sampling: no
// other is as likely, but it is no closed form.
const alone = "the interval holds this number alone"

// Quantile is an estimated quantile. A sample's quantile and both ends may be
// one and the same.
func Quantile(e estimate.Estimate) Cell {
	c := Estimated(e)
	if e.Low == e.High && e.Value > 0 {
		c.Sub = alone
	}
	return c
}

// Counted is an estimate of a whole number, times a unit. Its interval may hold
// no other number, and is no closed form for that.
func Counted(e estimate.Estimate, unit float64) Cell {
	if math.IsNaN(e.Value) {
		return NotKnown()
	}
	sub := figure.Whole(e.Low*unit) + " to " + figure.Whole(e.High*unit)
	if e.Low == e.High {
		sub = alone
	}
	return Cell{Main: figure.Whole(e.Value * unit), Sub: sub}
}

func NotKnown() Cell { return Cell{Main: "not known"} }

// Exact is a figure without chance in it.
func Exact(x float64) Cell { return Cell{Main: figure.Exact(x)} }

func Money(x float64) Cell { return Cell{Main: figure.Whole(x)} }

// RatioCell is a ratio with its interval below.
func RatioCell(e estimate.Estimate) Cell {
	if math.IsNaN(e.Value) {
		return NotKnown()
	}
	return Cell{Main: Firm(figure.Ratio(e)), Sub: Firm(figure.RatioInterval(e))}
}

// OddsLine is a chance with its interval, in a line.
func OddsLine(e estimate.Estimate) string {
	if math.IsNaN(e.Value) {
		return "not known"
	}
	text := figure.Odds(e)
	if e.High > e.Low && e.Value > 0 {
		text += " (" + figure.OddsInterval(e) + ")"
	}
	return Firm(text)
}
