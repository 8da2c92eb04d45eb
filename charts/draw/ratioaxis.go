package draw

import (
	"math"
	"strings"

	"arrayodds/sim/figure"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// RatioAxis is an axis of how many times something is another, by ratio.
type RatioAxis struct {
	Min, Max float64 // decimal logarithms
	ticks    []Tick
}

// NewRatioAxis returns an axis that spans low to high, in decimal logarithms, and 1
// time, with at most so many ticks.
func NewRatioAxis(low, high float64, most int) RatioAxis {
	// No less than half to twice, which keeps noise from looking large.
	low, high = math.Min(low, Log10(0.5)), math.Max(high, Log10(2))
	room := 0.03 * (high - low)
	a := RatioAxis{Min: Round(low - room), Max: Round(high + room)}
	for _, x := range LogTicks(math.Pow(10, a.Min), math.Pow(10, a.Max), most) {
		a.ticks = append(a.ticks, Tick{Log10(x), "× " + strings.TrimPrefix(figure.Exact(x), "1 × ")})
	}
	return a
}

// Horizontal returns the axis as that below a drawing.
func (a RatioAxis) Horizontal(name string) opts.XAxis {
	x := XAxis(name, 34, OwnTicks)
	x.Min, x.Max, x.Data = a.Min, a.Max, a.ticks
	return x
}

// Vertical returns the axis as that beside a drawing.
func (a RatioAxis) Vertical(name string) opts.YAxis {
	y := YAxis(name, OwnTicks)
	y.Min, y.Max, y.Data = a.Min, a.Max, a.ticks
	return y
}
