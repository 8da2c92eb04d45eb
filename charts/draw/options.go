package draw

import (
	"encoding/json"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// Options returns the options of a drawing. Nothing in it moves, and its legend
// stands in the page, where it can be read without the script. It panics where a
// value is not finite.
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
