package draw

import (
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// TickWords names the function of the page's script that makes words of the values
// at the ticks of an axis.
type TickWords string

const (
	OddsTicks    TickWords = "odds"    // "1 in 100" of the power of ten -2
	PercentTicks TickWords = "percent" // of a share
	MoneyTicks   TickWords = "money"   // with digits in groups
	SignedTicks  TickWords = "signed"  // with a sign where above or below 0
	PlainTicks   TickWords = "plain"
	OwnTicks     TickWords = "" // words that stand in the options; see [Tick]
)

// XAxis returns a horizontal axis of values, named so many pixels below it, with
// grid lines.
func XAxis(name string, gap int, words TickWords) opts.XAxis {
	return opts.XAxis{Type: "value", Name: name, NameLocation: "middle", NameGap: gap,
		AxisLabel: tickLabels(words), SplitLine: gridLines(), AxisLine: axisLine()}
}

// YAxis returns a vertical axis of values, named above it, with grid lines.
func YAxis(name string, words TickWords) opts.YAxis {
	return opts.YAxis{Type: "value", Name: name, NameLocation: "end", NameGap: 14,
		AxisLabel: tickLabels(words), SplitLine: gridLines(), AxisLine: axisLine()}
}

// RowAxis returns a vertical axis of rows, the first on top, whose names take two
// lines where they must.
func RowAxis(names []string) opts.YAxis {
	labels := tickLabels(OwnTicks)
	labels.Width, labels.Overflow, labels.Interval, labels.FontSize = 270, "break", "0", 13
	labels.Color = Ink
	return opts.YAxis{Type: "category", Inverse: opts.Bool(true), Data: names,
		AxisLabel: labels, SplitLine: gridLines(), AxisLine: axisLine()}
}

// NarrowRowAxis returns a vertical axis of rows with short names and without grid
// lines, the first on top.
func NarrowRowAxis(names []string) opts.YAxis {
	labels := tickLabels(PlainTicks)
	labels.Interval = "0"
	return opts.YAxis{Type: "category", Inverse: opts.Bool(true), Data: names,
		AxisLabel: labels, SplitLine: NoGridLines(), AxisLine: axisLine()}
}

func tickLabels(words TickWords) *opts.AxisLabel {
	return &opts.AxisLabel{Color: Muted, FontSize: 12, Formatter: types.FuncStr(words)}
}

func gridLines() *opts.SplitLine {
	return &opts.SplitLine{Show: opts.Bool(true), LineStyle: &opts.LineStyle{Color: Faint}}
}

// NoGridLines takes the place of an axis's grid lines where it has none.
func NoGridLines() *opts.SplitLine { return &opts.SplitLine{Show: opts.Bool(false)} }

func axisLine() *opts.AxisLine {
	return &opts.AxisLine{Show: opts.Bool(true), OnZero: opts.Bool(false), LineStyle: &opts.LineStyle{Color: Muted}}
}

// Margins returns the room around a plot with an axis of values at its left.
func Margins() opts.Grid {
	return opts.Grid{Left: "84", Right: "34", Top: "36", Bottom: "54"}
}

// RowMargins returns the room around a plot with a [RowAxis].
func RowMargins() opts.Grid {
	return opts.Grid{Left: "290", Right: "24", Top: "10", Bottom: "74"}
}
