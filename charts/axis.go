package charts

import (
	"fmt"
	"math"

	"arrayodds/array/label"
	"arrayodds/sim/estimate"

	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// logAxis is a scale of chances: powers of ten from Min to Max, a tick every
// Step of them.
type logAxis struct{ Min, Max, Step int }

// leastDecades keeps a scale from magnifying what is nearly equal.
const leastDecades = 2

// mostTicks is what a wide page has room for; the page's script thins them on
// a narrow one.
const mostTicks = 9

// logAxisFor spans the intervals of all estimates that can be drawn. Where one
// cannot, because it is 0, a decade is kept free for it at the low end.
func logAxisFor(estimates []estimate.Estimate) logAxis {
	low, high, free := math.Inf(1), math.Inf(-1), 0
	for _, e := range estimates {
		if e.High > 0 {
			w := whiskerOf(e)
			low, high = math.Min(low, w.low), math.Max(high, w.high)
		}
		if !(e.Value > 0) {
			free = 1
		}
	}
	if math.IsInf(low, 1) {
		return logAxis{-leastDecades, 0, 1}
	}
	a := logAxis{Min: int(math.Floor(low)) - free, Max: min(0, int(math.Ceil(high))), Step: 1}
	a.Min = min(a.Min, a.Max-leastDecades)
	for (a.Max-a.Min)/a.Step >= mostTicks {
		a.Step++
	}
	// Whole steps, counted from the high end.
	a.Min = a.Max - a.Step*((a.Max-a.Min+a.Step-1)/a.Step)
	return a
}

// whisker is where an estimate lies on a scale of powers of ten. Open says that
// the low end is beyond what is drawn.
type whisker struct {
	at, low, high float64
	open          bool
}

// longest is how far a whisker is drawn below its point, in decades: beyond
// that, the figure says no more than "less than".
const longest = 3

func whiskerOf(e estimate.Estimate) whisker {
	w := whisker{at: decades(e.Value), low: decades(e.Low), high: decades(e.High)}
	if e.Value <= 0 { // nothing seen, but something possible
		w.at, w.low, w.open = w.high, w.high-1, true
		return w
	}
	if !(w.low >= w.at-longest) {
		w.low, w.open = w.at-longest, true
	}
	return w
}

// decades is the decimal logarithm to six decimals, which is finer than any screen
// and keeps golden files free of the last bit.
func decades(x float64) float64 {
	return math.Round(math.Log10(x)*1e6) / 1e6
}

// horizontal and vertical make it an axis of a drawing. The tick words are
// made by the page's script.
func (a logAxis) horizontal(name string) opts.XAxis {
	return opts.XAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: 48, Min: a.Min, Max: a.Max,
		MinInterval: float64(a.Step), MaxInterval: float64(a.Step),
		AxisLabel: tickLabels("odds"), SplitLine: gridLines(), AxisLine: axisLine()}
}

func (a logAxis) vertical(name string) opts.YAxis {
	return opts.YAxis{Type: "value", Name: name, NameLocation: "end", NameGap: 14, Min: a.Min, Max: a.Max,
		MinInterval: float64(a.Step), MaxInterval: float64(a.Step),
		AxisLabel: tickLabels("odds"), SplitLine: gridLines(), AxisLine: axisLine()}
}

// rows is an axis of choices, the first on top.
func (r report) rows() opts.YAxis {
	var names []string
	for _, m := range r.marks() {
		name := fmt.Sprintf("%d · %s", m.Number, label.Short(m.Label))
		if m.Hollow {
			name += " (falls short)"
		}
		names = append(names, name)
	}
	labels := tickLabels("")
	labels.Width, labels.Overflow, labels.Interval, labels.FontSize = 270, "break", "0", 13
	labels.Color = ink
	return opts.YAxis{Type: "category", Inverse: opts.Bool(true), Data: names,
		AxisLabel: labels, SplitLine: gridLines(), AxisLine: axisLine()}
}

func tickLabels(words string) *opts.AxisLabel {
	return &opts.AxisLabel{Color: muted, FontSize: 12, Formatter: types.FuncStr(words)}
}

func gridLines() *opts.SplitLine {
	return &opts.SplitLine{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: faint}}
}

func axisLine() *opts.AxisLine {
	return &opts.AxisLine{Show: opts.Bool(true), OnZero: opts.Bool(false), LineStyle: &opts.LineStyle{Color: muted}}
}
