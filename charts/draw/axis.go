package draw

import (
	"math"

	"arrayodds/sim/estimate"

	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// LogAxis is a scale of chances: powers of ten from Min to Max, a tick every
// Step of them.
type LogAxis struct{ Min, Max, Step int }

// leastDecades keeps a scale from magnifying what is nearly equal.
const leastDecades = 2

// mostTicks is what a wide page has room for; the page's script thins them on
// a narrow one.
const mostTicks = 9

// LogAxisFor spans the intervals of all estimates that can be drawn. Where one
// cannot, because it is 0, a decade is kept free for it at the low end.
func LogAxisFor(estimates []estimate.Estimate) LogAxis {
	low, high, free := math.Inf(1), math.Inf(-1), 0
	for _, e := range estimates {
		if e.High > 0 {
			w := WhiskerOf(e)
			low, high = math.Min(low, w.Low), math.Max(high, w.High)
		}
		if !(e.Value > 0) {
			free = 1
		}
	}
	if math.IsInf(low, 1) {
		return LogAxis{-leastDecades, 0, 1}
	}
	a := LogAxis{Min: int(math.Floor(low)) - free, Max: min(0, int(math.Ceil(high))), Step: 1}
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
	At, Low, High float64
	open          bool
}

// longest is how far a whisker is drawn below its point, in decades: beyond
// that, the figure says no more than "less than".
const longest = 3

func WhiskerOf(e estimate.Estimate) whisker {
	w := whisker{At: Decades(e.Value), Low: Decades(e.Low), High: Decades(e.High)}
	if e.Value <= 0 { // nothing seen, but something possible
		w.At, w.Low, w.open = w.High, w.High-1, true
		return w
	}
	if !(w.Low >= w.At-longest) {
		w.Low, w.open = w.At-longest, true
	}
	return w
}

// Decades is the decimal logarithm to six decimals, which is finer than any screen
// and keeps golden files free of the last bit.
func Decades(x float64) float64 {
	return math.Round(math.Log10(x)*1e6) / 1e6
}

// Horizontal and vertical make it an axis of a drawing. The tick words are
// made by the page's script.
func (a LogAxis) Horizontal(name string) opts.XAxis {
	return opts.XAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: 48, Min: a.Min, Max: a.Max,
		MinInterval: float64(a.Step), MaxInterval: float64(a.Step),
		AxisLabel: TickLabels("odds"), SplitLine: GridLines(), AxisLine: AxisLine()}
}

func (a LogAxis) Vertical(name string) opts.YAxis {
	return opts.YAxis{Type: "value", Name: name, NameLocation: "end", NameGap: 14, Min: a.Min, Max: a.Max,
		MinInterval: float64(a.Step), MaxInterval: float64(a.Step),
		AxisLabel: TickLabels("odds"), SplitLine: GridLines(), AxisLine: AxisLine()}
}

func TickLabels(words string) *opts.AxisLabel {
	return &opts.AxisLabel{Color: Muted, FontSize: 12, Formatter: types.FuncStr(words)}
}

func GridLines() *opts.SplitLine {
	return &opts.SplitLine{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: Faint}}
}

func AxisLine() *opts.AxisLine {
	return &opts.AxisLine{Show: opts.Bool(true), OnZero: opts.Bool(false), LineStyle: &opts.LineStyle{Color: Muted}}
}

// Known says whether an estimate is a figure at all.
func Known(e estimate.Estimate) bool {
	return !math.IsNaN(e.Value) && !math.IsInf(e.Value, 0) && e.Value >= 0
}

// Drawable says whether it has a place on a scale by ratio.
func Drawable(e estimate.Estimate) bool { return Known(e) && e.Value > 0 }

// WhiskerWithin is where an estimate above 0 lies, cut to what is drawn of an interval
// without an end.
func WhiskerWithin(e estimate.Estimate) whisker {
	w := WhiskerOf(e)
	if !(w.High <= w.At+longest) {
		w.High = w.At + longest
	}
	return w
}
