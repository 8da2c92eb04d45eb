package draw

import (
	"math"

	"arrayodds/sim/estimate"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// LogAxis is an axis of chances: powers of ten from Min to Max, a tick every
// Step of them.
type LogAxis struct{ Min, Max, Step int }

// leastDecades keeps an axis from magnifying what is nearly equal.
const leastDecades = 2

// mostTicks is what a wide page has room for; the page's script thins them on
// a narrow one.
const mostTicks = 9

// NewLogAxis returns an axis that spans the intervals of all estimates that can be
// drawn. Where one cannot, because it is 0, a decade is kept free for it at the low
// end.
func NewLogAxis(estimates []estimate.Estimate) LogAxis {
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

// Horizontal returns the axis as that below a drawing. The page's script makes the
// words at its ticks.
func (a LogAxis) Horizontal(name string) opts.XAxis {
	x := XAxis(name, 48, OddsTicks)
	x.Min, x.Max, x.MinInterval, x.MaxInterval = a.Min, a.Max, float64(a.Step), float64(a.Step)
	return x
}

// Vertical returns the axis as that beside a drawing.
func (a LogAxis) Vertical(name string) opts.YAxis {
	y := YAxis(name, OddsTicks)
	y.Min, y.Max, y.MinInterval, y.MaxInterval = a.Min, a.Max, float64(a.Step), float64(a.Step)
	return y
}

// Place returns where an estimate stands; one of 0 stands at the low end.
func (a LogAxis) Place(e estimate.Estimate) float64 {
	if !Drawable(e) {
		return float64(a.Min)
	}
	return WhiskerOf(e).At
}

// Log10 returns the decimal logarithm of x to six decimals, which is finer than any
// screen and keeps golden files free of the last bit.
func Log10(x float64) float64 { return Round(math.Log10(x)) }

// Round returns x to six decimals, without what floating point adds.
func Round(x float64) float64 { return math.Round(x*1e6) / 1e6 }
