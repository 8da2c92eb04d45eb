package page

import (
	"html/template"
	"math"

	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// Table is figures by choice. On a phone each row becomes a card, so every cell
// is read with the name of its column.
type Table struct {
	Title   string
	Of      string // what a row is of; a choice where empty
	Intro   string
	Columns []Column
	Rows    []Row
}

// Column is what stands below each other, and its unit.
type Column struct{ Name, Unit string }

// Row is one choice.
type Row struct {
	Mark     draw.Mark
	Path     template.HTML // of an input, as one can type it; empty: none
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

const unknown = "not known"

// onlyValue is said of an interval of one number that was found by sampling: no
// other is as likely, but it is no closed form.
const onlyValue = "the interval holds this number alone"

// UnknownCell returns the cell of a figure that is not known.
func UnknownCell() Cell { return Cell{Main: unknown} }

// EstimateCell returns an estimate with its interval.
func EstimateCell(e estimate.Estimate) Cell {
	if math.IsNaN(e.Value) {
		return UnknownCell()
	}
	return Cell{Main: Unbroken(figure.Number(e)), Sub: Unbroken(figure.Interval(e))}
}

// ChanceCell returns an estimated chance as odds, with the interval as odds and the
// figure itself.
func ChanceCell(e estimate.Estimate) Cell {
	if math.IsNaN(e.Value) {
		return UnknownCell()
	}
	if e.High == 0 {
		return Cell{Main: "none"}
	}
	sub := figure.OddsInterval(e)
	if e.Value > 0 {
		sub += "; " + figure.Number(e)
	}
	return Cell{Main: Unbroken(figure.Odds(e)), Sub: Unbroken(sub)}
}

// QuantileCell returns an estimated quantile. A sample's quantile and both ends of its
// interval may be one and the same.
func QuantileCell(e estimate.Estimate) Cell {
	c := EstimateCell(e)
	if e.Low == e.High && e.Value > 0 {
		c.Sub = onlyValue
	}
	return c
}

// CountCell returns an estimate of a whole number, times a unit. Its interval may hold
// no other number, and is no closed form for that.
func CountCell(e estimate.Estimate, unit float64) Cell {
	if math.IsNaN(e.Value) {
		return UnknownCell()
	}
	sub := figure.Whole(e.Low*unit) + " to " + figure.Whole(e.High*unit)
	if e.Low == e.High {
		sub = onlyValue
	}
	return Cell{Main: figure.Whole(e.Value * unit), Sub: sub}
}

// RatioCell returns a ratio with its interval.
func RatioCell(e estimate.Estimate) Cell {
	if math.IsNaN(e.Value) {
		return UnknownCell()
	}
	return Cell{Main: Unbroken(figure.Ratio(e)), Sub: Unbroken(figure.RatioInterval(e))}
}

// ExactCell returns a figure without chance in it.
func ExactCell(x float64) Cell { return Cell{Main: figure.Exact(x)} }

// SumCell returns an estimated sum of money with its interval.
func SumCell(e estimate.Estimate) Cell {
	if math.IsNaN(e.Value) {
		return UnknownCell()
	}
	if e.Low == e.High {
		return MoneyCell(e.Value)
	}
	return Cell{Main: figure.Whole(e.Value), Sub: figure.Whole(e.Low) + " to " + figure.Whole(e.High)}
}

// MoneyCell returns a sum of money.
func MoneyCell(x float64) Cell { return Cell{Main: figure.Whole(x)} }
