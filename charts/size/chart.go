package size

import (
	"fmt"
	"math"

	"arrayodds/array"
	"arrayodds/charts/draw"
	"arrayodds/sim/figure"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

// charts has the price of every design that fits against the room that it has; nothing
// where none fits.
func (z sized) charts() []draw.Chart {
	if !z.Fit() {
		return nil
	}
	c := draw.Chart{ID: "price", Title: "Price against room for footage", Height: 400,
		Read: "Left is cheaper, higher holds more: the dashed line is what is due. Numbered points are suggested, of each layout the one that costs least; the others are pale.",
		Alt:  "Price against room for footage. The figures stand in the table of designs."}
	pale := draw.Symbol{Shape: draw.Circle, Colour: draw.Pale}
	var others []draw.Point
	var suggested []echarts.SingleSeries
	drawn := false
	least, most, top := math.Inf(1), 0.0, 0.0
	for _, f := range z.Fittings {
		cost, held := f.Sizing.Purchase, f.Sizing.Usable/array.TB
		if !f.Found || !f.Fits || math.IsNaN(cost) {
			continue
		}
		drawn, least, most, top = true, math.Min(least, cost), math.Max(most, cost), math.Max(top, held)
		tip := []string{f.Choice.Label, figure.Money(cost, z.Site.Currency) + " to buy", figure.Exact(held) + " TB usable"}
		if !f.Customary {
			tip = append(tip, "wider than is customary")
		}
		p := draw.Point{Value: []any{draw.Round(cost), draw.Round(held)}, Tip: tip}
		n := z.Suggested(f)
		if n == 0 {
			others = append(others, p)
			continue
		}
		m := draw.MarkOf(n-1, f.Choice.Label)
		p.Tip[0], p.Label = m.Numbered(), m.NumberLabel("left")
		suggested = append(suggested, m.Symbol.Series(m.Numbered(), draw.SymbolSize, p))
		c.Key = append(c.Key, draw.KeyEntry{Drawing: m.Drawing(), Text: m.Numbered()})
	}
	if !drawn {
		c.Absent = "The site file gives no prices of drives, so that price cannot be set against room."
		return []draw.Chart{c}
	}
	due := z.Site.Demand().Room / array.TB
	x := draw.XAxis("purchase, in "+figure.CurrencyName(z.Site.Currency), 32, draw.MoneyTicks)
	x.Scale = opts.Bool(true)
	y := draw.YAxis("usable TB", draw.PlainTicks)
	y.Scale = opts.Bool(true)
	y.Max = math.Ceil(1.05 * math.Max(top, due)) // no mark is cut at the edge
	line := draw.LineSeries("due", draw.Muted, draw.Dashed, draw.Point{Value: []any{draw.Round(least), draw.Round(due)}}, draw.Point{Value: []any{draw.Round(math.Max(most, least*1.01)), draw.Round(due)}})
	margins := draw.Margins()
	margins.Bottom = "58"
	c.Options = draw.Options(x, y, margins, append([]echarts.SingleSeries{line, pale.Series("other designs", 7, others...)}, suggested...)...)
	if others != nil {
		c.Key = append(c.Key, draw.KeyEntry{Drawing: pale.Drawing(), Text: "other designs"})
	}
	c.Notes = []string{fmt.Sprintf("Due are %s\u00a0TB. Two designs that cost and hold the same lie one on the other.", figure.Exact(due))}
	return []draw.Chart{c}
}
