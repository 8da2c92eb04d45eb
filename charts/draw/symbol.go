package draw

import (
	"fmt"
	"html/template"
	"strings"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// Shapes of symbols, drawn in a box of 20 by 20, the same in the charts and in the
// keys beside them.
const (
	Circle       = "path://M10 2A8 8 0 1 1 9.99 2Z"
	Square       = "path://M3 3H17V17H3Z"
	Triangle     = "path://M10 1.5L18.5 17H1.5Z"
	Diamond      = "path://M10 0.5L19 10L10 19.5L1 10Z"
	DownTriangle = "path://M10 18.5L1.5 3H18.5Z"
	Plus         = "path://M7 2H13V7H18V13H13V18H7V13H2V7H7Z"
	Pentagon     = "path://M10 1L19 8L15.6 18.5H4.4L1 8Z"
	Cross        = "path://M2 5L5 2L10 7L15 2L18 5L13 10L18 15L15 18L10 13L5 18L2 15L7 10Z"

	// These are no choice's.
	HalfMoon  = "path://M2 1H8A9 9 0 0 1 8 19H2Z"
	Hourglass = "path://M1 1H19L1 19H19Z"
	Slash     = "path://M14 1H19L6 19H1Z"
	Chevron   = "path://M3 2L18 10L3 18L7 10Z"

	// PointerDown and PointerLeft point to the low end of a scale of powers of ten,
	// where 0 lies.
	PointerDown = "path://M2 2H18L10 18Z"
	PointerLeft = "path://M18 2V18L2 10Z"

	NoShape = "path://" // draws nothing
)

// Shapes are those of choices in their order.
var Shapes = []string{Circle, Square, Triangle, Diamond, DownTriangle, Plus, Pentagon}

// SymbolSize is the usual size of a symbol, in pixels.
const SymbolSize = 13

// Symbol is how a point is drawn.
type Symbol struct {
	Shape  string // one of this package, or by its name one of the chart script
	Colour string
	Hollow bool // an outline filled with the colour of the paper
}

// Drawing returns the symbol as a small picture for the text. The shape must be one
// of this package.
func (s Symbol) Drawing() template.HTML {
	fill := s.Colour
	if s.Hollow {
		fill = Paper
	}
	return template.HTML(fmt.Sprintf(`<svg class="mark" viewBox="-1 -1 22 22" aria-hidden="true"><path d="%s" fill="%s" stroke="%s" stroke-width="2.4"/></svg>`,
		strings.TrimPrefix(s.Shape, NoShape), fill, s.Colour))
}

// Series returns points drawn by the symbol, so many pixels wide.
func (s Symbol) Series(name string, size int, data ...Point) echarts.SingleSeries {
	style := &opts.ItemStyle{Color: s.Colour, BorderColor: s.Colour, BorderWidth: 1.5, Opacity: opts.Float(1)}
	if s.Hollow {
		style.Color = Paper
		style.BorderWidth = 2
	}
	return echarts.SingleSeries{Name: name, Type: "scatter", Symbol: s.Shape, SymbolSize: size, ItemStyle: style, Data: data}
}

// LineDrawing returns a piece of a line for the key; dashes are those of SVG, empty
// for a solid line.
func LineDrawing(colour, dashes string) template.HTML {
	return template.HTML(fmt.Sprintf(`<svg class="mark" viewBox="0 0 22 22" aria-hidden="true"><path d="M0 11H22" fill="none" stroke="%s" stroke-width="3" stroke-dasharray="%s"/></svg>`, colour, dashes))
}

// Swatch returns a square of a colour for the key, with a sign on it where path, of
// SVG and in a box of 20 by 20, is not empty.
func Swatch(colour, path string) template.HTML {
	sign := ""
	if path != "" {
		sign = fmt.Sprintf(`<path d="%s" stroke="%s" stroke-width="1.6" fill="none"/>`, path, Ink)
	}
	return template.HTML(fmt.Sprintf(`<svg class="mark" viewBox="0 0 20 20" aria-hidden="true"><rect x="0.5" y="0.5" width="19" height="19" fill="%s" stroke="%s"/>%s</svg>`, colour, Muted, sign))
}

// RingSwatch returns a square of a colour with a ring on it.
func RingSwatch(colour string) template.HTML {
	return template.HTML(fmt.Sprintf(`<svg class="mark" viewBox="0 0 20 20" aria-hidden="true"><rect width="20" height="20" fill="%s"/><circle cx="10" cy="10" r="4.5" fill="none" stroke="%s" stroke-width="1.6"/></svg>`, colour, Ink))
}
