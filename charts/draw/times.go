package draw

import (
	"math"
	"strings"

	"arrayodds/sim/figure"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// TimesScale is a scale of how many times something is another, by ratio.
type TimesScale struct {
	Min, max float64 // decimal logarithms
	ticks    []Tick
}

// TimesScaleFor spans low to high and once, in decimal logarithms.
func TimesScaleFor(low, high float64, most int) TimesScale {
	// No less than half to twice, which keeps noise from looking large.
	low, high = math.Min(low, Decades(0.5)), math.Max(high, Decades(2))
	room := 0.03 * (high - low)
	s := TimesScale{Min: Tidy(low - room), max: Tidy(high + room)}
	for _, x := range LogTicks(math.Pow(10, s.Min), math.Pow(10, s.max), most) {
		s.ticks = append(s.ticks, Tick{Decades(x), "× " + strings.TrimPrefix(figure.Exact(x), "1 × ")})
	}
	return s
}

func (s TimesScale) Horizontal(name string) opts.XAxis {
	return opts.XAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: 34, Min: s.Min, Max: s.max, Data: s.ticks,
		AxisLabel: TickLabels(""), SplitLine: GridLines(), AxisLine: AxisLine()}
}

func (s TimesScale) Vertical(name string) opts.YAxis {
	return opts.YAxis{Type: "value", Name: name, NameLocation: "end", NameGap: 14, Min: s.Min, Max: s.max, Data: s.ticks,
		AxisLabel: TickLabels(""), SplitLine: GridLines(), AxisLine: AxisLine()}
}
