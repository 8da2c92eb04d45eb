package draw

import (
	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// Point is an item of a series. Value is x, y and whatever else the renderer reads.
type Point struct {
	Value     []any           `json:"value"`
	Tip       []string        `json:"tip,omitempty"` // lines of the tooltip
	ItemStyle *opts.ItemStyle `json:"itemStyle,omitempty"`
	Label     *Label          `json:"label,omitempty"`
	Offset    []int           `json:"symbolOffset,omitempty"` // pixels right and down
}

// Label is text beside a symbol. It is never taken from the site file, as the chart
// script would read braces in it.
type Label struct {
	Show     bool   `json:"show"`
	Text     string `json:"formatter"`
	Side     string `json:"position"`
	Align    string `json:"align,omitempty"`
	Colour   string `json:"color"`
	Size     int    `json:"fontSize"`
	Weight   string `json:"fontWeight,omitempty"`
	Halo     string `json:"textBorderColor"`
	HaloSize int    `json:"textBorderWidth"`
}

// NewLabel returns a label at a side of its symbol: top, left or right. Its text is
// aligned left or right, or in the middle where align is empty.
func NewLabel(text, side, align string) *Label {
	return &Label{Show: true, Text: text, Side: side, Align: align, Colour: Ink, Size: 12, Halo: Paper, HaloSize: 2}
}

// Strokes of lines.
const (
	Solid  = "solid"
	Dashed = "dashed"
)

// LineSeries returns a line through points, without symbols.
func LineSeries(name, colour, stroke string, data ...Point) echarts.SingleSeries {
	return echarts.SingleSeries{Name: name, Type: "line", Symbol: "none", Data: data,
		LineStyle: &opts.LineStyle{Color: colour, Width: 2, Type: stroke}}
}

// HorizontalLine returns a thin level line at a height.
func HorizontalLine(name string, from, to, height float64) echarts.SingleSeries {
	return echarts.SingleSeries{Name: name, Type: "line", Symbol: "none", Data: []Point{{Value: []any{from, height}}, {Value: []any{to, height}}},
		LineStyle: &opts.LineStyle{Color: Muted, Width: 1}}
}

// VerticalLine returns a dashed line over the whole height at x; y is any value on
// the vertical scale.
func VerticalLine(name string, x, y float64) echarts.SingleSeries {
	return fullHeight.Series(name, Ink, Point{Value: []any{x, y}})
}

// NoLine returns such a line that is nowhere as yet: a page's script puts it somewhere.
func NoLine(name string) echarts.SingleSeries {
	return fullHeight.Series(name, Ink, []Point{}...)
}

// Renderer draws the items of a series by the function of its name in the page's
// scripts, where it is said what an item's values are.
type Renderer struct {
	Name string
	X, Y []int // places in an item's values of what lies on the axes
}

// Renderers that every page has, in draw.js.
var (
	across  = Renderer{"across", []int{0, 1}, []int{2}}  // a whisker in a row
	upright = Renderer{"upright", []int{0}, []int{1, 2}} // a whisker over a value
	Band    = Renderer{"band", []int{0}, []int{1, 2}}    // the area between two curves
)

// Renderers of pages that take those of inputs.js.
var (
	fullHeight = Renderer{"mark", []int{0}, []int{1}}       // a line over the whole height; pages with a script of their own have it too
	Numbered   = Renderer{"numbered", []int{0}, []int{1}}   // a number beside a place in a row
	Joined     = Renderer{"joined", []int{0, 1}, []int{2}}  // a thin line between two places of a row
	Cell       = Renderer{"cell", []int{0, 1}, []int{2, 3}} // of a map
	Contour    = Renderer{"contour", []int{0}, []int{1}}    // a line of a map
)

// Series returns a series that the renderer draws.
func (r Renderer) Series(name, colour string, data ...Point) echarts.SingleSeries {
	return echarts.SingleSeries{Name: name, Type: "custom", RenderItem: types.FuncStr(r.Name),
		Encode: &opts.Encode{X: r.X, Y: r.Y}, ItemStyle: &opts.ItemStyle{Color: colour}, Data: data}
}

// mostSymbols is how many points of a curve get a symbol.
const mostSymbols = 8

// SymbolEvery returns n ÷ 8, rounded up: one point in so many of a curve of n gets a
// symbol.
func SymbolEvery(n int) int { return (n + mostSymbols - 1) / mostSymbols }
