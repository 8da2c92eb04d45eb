package vary

import (
	"math"
	"strings"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// inputScale is the axis of an input: its values in their unit, their decimal
// logarithm where they are spaced by ratio, their place from 0 where they are
// words.
type inputScale struct {
	study.Input
	low, high float64 // ends of what the values span, in axis units
	ticks     []draw.Tick
}

// mostInputTicks is what a phone has room for.
const mostInputTicks = 6

func scaleOf(in study.Input) inputScale {
	s := inputScale{Input: in}
	if in.Values == nil {
		for i, text := range in.Texts {
			s.ticks = append(s.ticks, draw.Tick{At: float64(i), Text: label.Short(text)})
		}
		s.low, s.high = -0.5, float64(len(in.Texts))-0.5
		return s
	}
	first, last := in.Values[0], in.Values[len(in.Values)-1]
	at := draw.LinearTicks(first, last, mostInputTicks)
	if in.Logarithmic() {
		at = draw.LogTicks(first, last, mostInputTicks)
	}
	for _, x := range at {
		s.ticks = append(s.ticks, draw.Tick{At: s.at(x), Text: strings.TrimPrefix(figure.Exact(x), "1 × ")})
	}
	s.low, s.high = s.at(first), s.at(last)
	return s
}

// at returns where a value of the input lies.
func (s inputScale) at(x float64) float64 {
	if s.Logarithmic() {
		return draw.Log10(x)
	}
	return x
}

// place returns where value i lies.
func (s inputScale) place(i int) float64 {
	if s.Values == nil {
		return float64(i)
	}
	return s.at(s.Values[i])
}

// own returns where the site file's value lies; false where it has none on the scale.
func (s inputScale) own() (float64, bool) {
	if s.Values == nil {
		for i, text := range s.Texts {
			if text == s.OwnText {
				return float64(i), true
			}
		}
		return 0, false
	}
	if math.IsNaN(s.Own) || s.Own < s.Values[0] || s.Own > s.Values[len(s.Values)-1] {
		return 0, false
	}
	return s.at(s.Own), true
}

// inputName returns the input with its unit.
func inputName(in study.Input) string {
	if in.Unit == "" || in.Values == nil {
		return label.Short(called(in))
	}
	return label.Short(called(in)) + ", " + in.Unit
}

// padded returns the span with a little room at both ends, so that symbols stand
// clear of the axes.
func (s inputScale) padded() (low, high float64) {
	room := 0.03 * (s.high - s.low)
	if room == 0 {
		room = 0.5 // a single value
	}
	return draw.Round(s.low - room), draw.Round(s.high + room)
}

func (s inputScale) horizontal(low, high float64) opts.XAxis {
	x := draw.XAxis(inputName(s.Input), 30, draw.OwnTicks)
	x.Min, x.Max, x.Data, x.SplitLine = low, high, s.ticks, draw.NoGridLines()
	if s.Values == nil {
		x.AxisLabel.Overflow = "break"
	}
	return x
}

func (s inputScale) vertical(low, high float64) opts.YAxis {
	y := draw.YAxis(inputName(s.Input), draw.OwnTicks)
	y.Min, y.Max, y.Data, y.SplitLine = low, high, s.ticks, draw.NoGridLines()
	if s.Values == nil {
		y.AxisLabel.Overflow, y.AxisLabel.Width = "break", 104
	}
	return y
}

// room returns the pixels that the ticks of an upright axis take.
func (s inputScale) room() string {
	if s.Values == nil {
		return "124"
	}
	return "84"
}
