package draw

import (
	"encoding/json"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
	"github.com/go-echarts/go-echarts/v2/types"
)

// Colours that the style sheet shares.
const (
	Paper = "#ffffff"
	Ink   = "#22303a"
	Faint = "#dde3e6"
	Muted = "#5a6872"
)

// Point is one symbol. Value is x, y and whatever else the renderer reads.
type Point struct {
	Value     []any           `json:"value"`
	Tip       []string        `json:"tip,omitempty"` // lines of text
	ItemStyle *opts.ItemStyle `json:"itemStyle,omitempty"`
	Label     *pointLabel     `json:"label,omitempty"`
	Offset    []int           `json:"symbolOffset,omitempty"` // pixels right and down
}

// pointLabel is text beside a symbol. It is never taken from the site file, as
// the chart script would read braces in it.
type pointLabel struct {
	Show     bool   `json:"show"`
	Text     string `json:"formatter"`
	Position string `json:"position"`
	Align    string `json:"align,omitempty"`
	Colour   string `json:"color"`
	Size     int    `json:"fontSize"`
	Weight   string `json:"fontWeight,omitempty"`
	Halo     string `json:"textBorderColor"`
	HaloSize int    `json:"textBorderWidth"`
}

func TextBeside(text, position, align string) *pointLabel {
	return &pointLabel{Show: true, Text: text, Position: position, Align: align, Colour: Ink, Size: 12, Halo: Paper, HaloSize: 2}
}

// Points is a series of symbols.
func Points(name, shape, colour string, hollow bool, data ...Point) echarts.SingleSeries {
	style := &opts.ItemStyle{Color: colour, BorderColor: colour, BorderWidth: 1.5, Opacity: opts.Float(1)}
	if hollow {
		style.Color = Paper
		style.BorderWidth = 2
	}
	return echarts.SingleSeries{Name: name, Type: "scatter", Symbol: shape, SymbolSize: 13, ItemStyle: style, Data: data}
}

// Custom is a series that the page's script draws by the renderer of that name;
// x and y are the dimensions of the data that lie on the axes.
func Custom(name, renderer, colour string, x, y []int, data ...Point) echarts.SingleSeries {
	return echarts.SingleSeries{Name: name, Type: "custom", RenderItem: types.FuncStr(renderer),
		Encode: &opts.Encode{X: x, Y: y}, ItemStyle: &opts.ItemStyle{Color: colour}, Data: data}
}

// Options puts a drawing together. Nothing moves, and the legend stands in the
// page, where it can be read without the script.
func Options(x opts.XAxis, y opts.YAxis, grid opts.Grid, series ...echarts.SingleSeries) json.RawMessage {
	c := echarts.NewScatter()
	c.SetGlobalOptions(
		echarts.WithXAxisOpts(x),
		echarts.WithYAxisOpts(y),
		echarts.WithGridOpts(grid),
		echarts.WithAnimation(false),
		echarts.WithLegendOpts(opts.Legend{Show: opts.Bool(false)}),
		echarts.WithTooltipOpts(opts.Tooltip{Show: opts.Bool(true), Trigger: "item", Formatter: "text"}),
		echarts.WithColorsOpts(opts.Colors(Palette)),
	)
	c.MultiSeries = series
	// The library's own page would pull its script from elsewhere; only its
	// options are used. Marshal escapes <, > and & and the line separators, so
	// that no label can end the element that holds them.
	data, err := json.Marshal(c.JSON())
	if err != nil {
		panic("charts: options that do not marshal: " + err.Error()) // only finite numbers and strings go in
	}
	return data
}
