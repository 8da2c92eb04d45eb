package draw

import (
	"math"

	"arrayodds/sim/estimate"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

// Whisker is where an estimate and its interval lie on a scale of powers of ten.
type Whisker struct {
	At, Low, High float64
	Open          bool // the low end is beyond what is drawn
}

// longest is how far a whisker is drawn from its point, in decades: below
// that, the figure says no more than "less than".
const longest = 3

// WhiskerOf returns where an estimate lies whose interval reaches above 0. One of 0
// lies at the high end of its interval.
func WhiskerOf(e estimate.Estimate) Whisker {
	w := Whisker{At: Log10(e.Value), Low: Log10(e.Low), High: Log10(e.High)}
	if e.Value <= 0 { // nothing seen, but something possible
		w.At, w.Low, w.Open = w.High, w.High-1, true
		return w
	}
	if !(w.Low >= w.At-longest) {
		w.Low, w.Open = w.At-longest, true
	}
	return w
}

// BoundedWhiskerOf returns where an estimate above 0 lies, cut at its high end too,
// which an interval may lack.
func BoundedWhiskerOf(e estimate.Estimate) Whisker {
	w := WhiskerOf(e)
	if !(w.High <= w.At+longest) {
		w.High = w.At + longest
	}
	return w
}

// RowSeries returns the whisker in a row, from 0, so many pixels below its middle.
func (w Whisker) RowSeries(name, colour string, row float64, down int, tip []string) echarts.SingleSeries {
	return across.Series(name, colour, Point{Value: []any{w.Low, w.High, row, down, w.open()}, Tip: tip})
}

// UprightSeries returns the whisker over x.
func (w Whisker) UprightSeries(name, colour string, x float64, tip []string) echarts.SingleSeries {
	return upright.Series(name, colour, Point{Value: []any{x, w.Low, w.High, w.open()}, Tip: tip})
}

// open returns Open as renderers read it.
func (w Whisker) open() int {
	if w.Open {
		return 1
	}
	return 0
}

// Known reports whether an estimate is a figure at all.
func Known(e estimate.Estimate) bool {
	return !math.IsNaN(e.Value) && !math.IsInf(e.Value, 0) && e.Value >= 0
}

// Drawable reports whether an estimate has a place on a scale by ratio.
func Drawable(e estimate.Estimate) bool { return Known(e) && e.Value > 0 }

// RowEstimate is a chance in a row: a point with its interval.
type RowEstimate struct {
	Name     string // of its series
	Symbol   Symbol
	Size     int // of the symbol, in pixels; 0: [SymbolSize]
	Estimate estimate.Estimate
	Row      int    // from 0
	Down     int    // pixels below the middle of the row
	Text     string // above the point; empty: none
	Tip      []string
}

// Series returns the whisker, where there is one, and the point. A chance of 0 is
// drawn as a pointer at the low end of the axis.
func (r RowEstimate) Series(axis LogAxis) []echarts.SingleSeries {
	e, symbol := r.Estimate, r.Symbol
	p := Point{Value: []any{float64(axis.Min), r.Row}, Tip: r.Tip}
	switch {
	case !(e.Value > 0):
		symbol.Shape = PointerLeft
		p.Offset = []int{9, r.Down} // clear of the name of its row
	case r.Down != 0:
		p.Offset = []int{0, r.Down}
	}
	var series []echarts.SingleSeries
	if e.High > 0 {
		w := WhiskerOf(e)
		if e.Value > 0 {
			p.Value[0] = w.At
		} else {
			w.Low = float64(axis.Min)
		}
		if w.High > w.Low {
			series = append(series, w.RowSeries(r.Name, symbol.Colour, float64(r.Row), r.Down, r.Tip))
		}
	}
	if r.Text != "" {
		// Kept inside the plot: from the middle on, the text runs to the left.
		align := "left"
		if at := p.Value[0].(float64); at > float64(axis.Min+axis.Max)/2 {
			align = "right"
		}
		p.Label = NewLabel(r.Text, "top", align)
	}
	size := r.Size
	if size == 0 {
		size = SymbolSize
	}
	return append(series, symbol.Series(r.Name, size, p))
}
