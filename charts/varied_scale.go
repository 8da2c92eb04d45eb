package charts

import (
	"math"
	"strings"

	"arrayodds/array/label"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"

	"github.com/go-echarts/go-echarts/v2/opts"
)

// tick is a place on an axis with its words. The page's script sets ticks so
// given in place of those that the chart script would choose.
type tick struct {
	At   float64 `json:"at"`
	Text string  `json:"text"`
}

// inputScale is the axis of an input: its values in their unit, their decimal
// logarithm where they are spaced by ratio, their place from 0 where they are
// words.
type inputScale struct {
	study.Input
	low, high float64 // ends of what the values span, in axis units
	ticks     []tick
}

// mostInputTicks is what a phone has room for.
const mostInputTicks = 6

func scaleOf(in study.Input) inputScale {
	s := inputScale{Input: in}
	if in.Values == nil {
		for i, text := range in.Texts {
			s.ticks = append(s.ticks, tick{float64(i), label.Short(text)})
		}
		s.low, s.high = -0.5, float64(len(in.Texts))-0.5
		return s
	}
	first, last := in.Values[0], in.Values[len(in.Values)-1]
	at := linearTicks(first, last, mostInputTicks)
	if in.Logarithmic() {
		at = logTicks(first, last, mostInputTicks)
	}
	for _, x := range at {
		s.ticks = append(s.ticks, tick{s.at(x), strings.TrimPrefix(figure.Exact(x), "1 × ")})
	}
	s.low, s.high = s.at(first), s.at(last)
	return s
}

// at is where a value of the input lies.
func (s inputScale) at(x float64) float64 {
	if s.Logarithmic() {
		return decades(x)
	}
	return x
}

// place is where value i lies.
func (s inputScale) place(i int) float64 {
	if s.Values == nil {
		return float64(i)
	}
	return s.at(s.Values[i])
}

// own is where the site file's value lies; false where it has none on the scale.
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

// inputName is the input with its unit.
func inputName(in study.Input) string {
	if in.Unit == "" || in.Values == nil {
		return label.Short(in.Path)
	}
	return label.Short(in.Path) + ", " + in.Unit
}

// padded is the span with a little room at both ends, so that symbols stand
// clear of the axes.
func (s inputScale) padded() (low, high float64) {
	room := 0.03 * (s.high - s.low)
	if room == 0 {
		room = 0.5 // a single value
	}
	return tidy(s.low - room), tidy(s.high + room)
}

func (s inputScale) horizontal(low, high float64) opts.XAxis {
	labels := tickLabels("")
	if s.Values == nil {
		labels.Overflow = "break"
	}
	return opts.XAxis{Type: "value", Name: inputName(s.Input), NameLocation: "middle", NameGap: 30, Min: low, Max: high, Data: s.ticks,
		AxisLabel: labels, SplitLine: &opts.SplitLine{Show: opts.Bool(false)}, AxisLine: axisLine()}
}

func (s inputScale) vertical(low, high float64) opts.YAxis {
	labels := tickLabels("")
	if s.Values == nil {
		labels.Overflow, labels.Width = "break", 104
	}
	return opts.YAxis{Type: "value", Name: inputName(s.Input), NameLocation: "end", NameGap: 14, Min: low, Max: high, Data: s.ticks,
		AxisLabel: labels, SplitLine: &opts.SplitLine{Show: opts.Bool(false)}, AxisLine: axisLine()}
}

// room is the pixels that the ticks of an upright axis take.
func (s inputScale) room() string {
	if s.Values == nil {
		return "124"
	}
	return "84"
}

// tidy cuts what floating point adds, so that golden files keep.
func tidy(x float64) float64 { return math.Round(x*1e6) / 1e6 }

// linearTicks are round values within low and high, at most so many.
func linearTicks(low, high float64, most int) []float64 {
	if !(high > low) {
		return []float64{low}
	}
	for step := math.Pow(10, math.Floor(math.Log10(high-low))-1); ; step *= 10 {
		for _, m := range []float64{1, 2, 5} {
			first, last := math.Ceil(low/(m*step)-1e-9), math.Floor(high/(m*step)+1e-9)
			if n := int(last-first) + 1; n > most {
				continue
			}
			var at []float64
			for k := first; k <= last; k++ {
				at = append(at, significant(k*m*step))
			}
			return at
		}
	}
}

// significant takes a value to nine digits.
func significant(x float64) float64 {
	if x == 0 {
		return 0
	}
	unit := math.Pow(10, 8-math.Floor(math.Log10(math.Abs(x))))
	if math.IsInf(unit, 0) {
		return x
	}
	return math.Round(x*unit) / unit
}

// steps are the digits at which ticks of a scale by ratio may stand, the closest
// first.
var steps = [][]float64{{1, 1.5, 2, 2.5, 3, 4, 5, 6, 7, 8, 9}, {1, 2, 3, 5, 7}, {1, 2, 5}, {1, 3}, {1}}

// logTicks are round values within low and high, above 0, at most so many and
// where there are not two round ones, the ends themselves.
func logTicks(low, high float64, most int) []float64 {
	first, last := int(math.Floor(math.Log10(low))), int(math.Ceil(math.Log10(high)))
	for every := 1; ; every++ {
		for _, digits := range steps {
			if every > 1 && len(digits) > 1 {
				continue
			}
			var at []float64
			for e := first; e <= last; e++ {
				if e%every != 0 {
					continue
				}
				for _, d := range digits {
					if x := significant(d * math.Pow(10, float64(e))); x >= low*(1-1e-9) && x <= high*(1+1e-9) {
						at = append(at, x)
					}
				}
			}
			switch {
			case len(at) > most:
				continue
			case len(at) < 2 && high > low:
				return []float64{low, high}
			case len(at) == 0:
				return []float64{low}
			}
			return at
		}
	}
}

// timesScale is a scale of how many times something is another, by ratio.
type timesScale struct {
	min, max float64 // decimal logarithms
	ticks    []tick
}

// timesScaleFor spans low to high and once, in decimal logarithms.
func timesScaleFor(low, high float64, most int) timesScale {
	// No less than half to twice, which keeps noise from looking large.
	low, high = math.Min(low, decades(0.5)), math.Max(high, decades(2))
	room := 0.03 * (high - low)
	s := timesScale{min: tidy(low - room), max: tidy(high + room)}
	for _, x := range logTicks(math.Pow(10, s.min), math.Pow(10, s.max), most) {
		s.ticks = append(s.ticks, tick{decades(x), "× " + strings.TrimPrefix(figure.Exact(x), "1 × ")})
	}
	return s
}

func (s timesScale) horizontal(name string) opts.XAxis {
	return opts.XAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: 34, Min: s.min, Max: s.max, Data: s.ticks,
		AxisLabel: tickLabels(""), SplitLine: gridLines(), AxisLine: axisLine()}
}

func (s timesScale) vertical(name string) opts.YAxis {
	return opts.YAxis{Type: "value", Name: name, NameLocation: "end", NameGap: 14, Min: s.min, Max: s.max, Data: s.ticks,
		AxisLabel: tickLabels(""), SplitLine: gridLines(), AxisLine: axisLine()}
}
