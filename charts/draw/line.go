package draw

import (
	"fmt"
	"html/template"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

func Curve(name string, colour int, stroke string, curve []Point) echarts.SingleSeries {
	return echarts.SingleSeries{Name: name, Type: "line", Symbol: "none", Data: curve,
		LineStyle: &opts.LineStyle{Color: Palette[colour], Width: 2, Type: stroke}}
}

// StrokeDrawing is a piece of a line for the key.
func StrokeDrawing(colour int, dashes string) template.HTML {
	return template.HTML(fmt.Sprintf(`<svg class="mark" viewBox="0 0 22 22" aria-hidden="true"><path d="M0 11H22" fill="none" stroke="%s" stroke-width="3" stroke-dasharray="%s"/></svg>`, Palette[colour], dashes))
}

// UprightLine marks the site file's value over the whole height.
func UprightLine(at, foot float64) echarts.SingleSeries {
	return Custom("as in the site file", "mark", Ink, []int{0}, []int{1}, Point{Value: []any{at, foot}})
}

// LevelLine is a thin line at a height.
func LevelLine(from, to, at float64) echarts.SingleSeries {
	return echarts.SingleSeries{Name: "no difference", Type: "line", Symbol: "none", Data: []Point{{Value: []any{from, at}}, {Value: []any{to, at}}},
		LineStyle: &opts.LineStyle{Color: Muted, Width: 1}}
}
