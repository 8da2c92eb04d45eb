package rank

import (
	"cmp"
	"fmt"
	"math"
	"slices"
	"strings"

	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

// withShares returns the inputs of which shares are known, the largest total first.
func withShares(c study.RankedChoice) []study.RankedInput {
	var out []study.RankedInput
	for _, in := range c.Inputs {
		if in.First != nil && in.Total != nil {
			out = append(out, in)
		}
	}
	slices.SortStableFunc(out, func(a, b study.RankedInput) int { return cmp.Compare(b.Total.Value, a.Total.Value) })
	return out
}

// sharesChart shows the shares of variance of a choice; false where there are none.
func (r ranking) sharesChart(place int) (draw.Chart, bool) {
	c := r.Choices[place]
	all := withShares(c)
	if len(all) == 0 {
		return draw.Chart{}, false
	}
	inputs := all[:min(mostSwings, len(all))]
	m := draw.MarkOf(place, c.Choice.Label)
	var names, alt []string
	var series []echarts.SingleSeries
	for row, in := range inputs {
		names = append(names, rowName(in))
		series = append(series, shareInRow(m, in, *in.First, "by itself", lowSymbol, row, -7)...)
		series = append(series, shareInRow(m, in, *in.Total, "with all that it does together with others", highSymbol, row, 7)...)
		alt = append(alt, fmt.Sprintf("%s: %s by itself, %s in all", rankedName(in), percent(in.First.Value), percent(in.Total.Value)))
	}
	x := draw.XAxis("share of the variance, %", 34, draw.PlainTicks)
	x.Min, x.Max = 0, 100
	margins := draw.RowMargins()
	margins.Bottom = "58" // ticks of one line
	out := draw.Chart{ID: fmt.Sprintf("shares-%d", m.Number), Title: m.Numbered() + ": how much of the spread comes of each input"}
	setHeights(&out, len(names))
	out.Options = draw.Options(x, draw.RowAxis(names), margins, series...)
	out.Key = rankedKey(inputs, "by itself (first share)", "with all that it does together with others (total share)")
	out.Read = "All inputs move at once; a point is the share of the variance of the logarithm of the loss chance that comes of an input, the line through it its 95 % interval. The largest total is on top."
	out.Alt = "Shares of variance. " + strings.Join(alt, "; ") + "."
	for _, note := range []string{spreadWords(c, page.ServiceLife(r.Site)), noiseWords(c), together(all)} {
		if note != "" {
			out.Notes = append(out.Notes, note)
		}
	}
	if n := len(all) - len(inputs); n > 0 {
		out.Notes = append(out.Notes, fmt.Sprintf("Not drawn, as their totals are smaller: %s. The table has them.", figure.Count(n, "input", "inputs")))
	}
	return out, true
}

// shareInRow returns a share with its whisker, in per cent, so many pixels down its row.
func shareInRow(m draw.Mark, in study.RankedInput, e estimate.Estimate, what string, symbol draw.Symbol, row, down int) []echarts.SingleSeries {
	tip := []string{m.Numbered(), rankedName(in), fmt.Sprintf("%s of the variance %s", percent(e.Value), what),
		fmt.Sprintf("95 %% interval: %s to %s", percent(e.Low), percent(e.High))}
	at := func(share float64) float64 { return draw.Round(100 * clamped(share)) }
	return []echarts.SingleSeries{
		draw.Whisker{Low: at(e.Low), High: at(e.High)}.RowSeries("share", symbol.Colour, float64(row), down, tip),
		symbol.Series("share", 10, draw.Point{Value: []any{at(e.Value), row}, Tip: tip, Offset: []int{0, down}}),
	}
}

// spreadWords says how far loss chances lie apart with all inputs moving; empty
// where that was not worked out.
func spreadWords(c study.RankedChoice, within string) string {
	if !(c.Spread.Value > 0) {
		return ""
	}
	return fmt.Sprintf("With all inputs moving at once, nine in ten chances of a loss within %s lie between %s and %s, half of them below %s.",
		within, roughOdds(c.Spread.Low), roughOdds(c.Spread.High), roughOdds(c.Spread.Value))
}

// noiseWords tells the simulation's own share of the variance where it counts.
func noiseWords(c study.RankedChoice) string {
	if !(c.Noise > 0.01) {
		return ""
	}
	return fmt.Sprintf("About %s of the variance is the simulation’s own noise.", percent(c.Noise))
}

// together says what the first shares lack of the whole; empty where they lack next
// to nothing.
func together(inputs []study.RankedInput) string {
	sum := 0.0
	for _, in := range inputs {
		sum += in.First.Value
	}
	if !(sum < 0.95) {
		return ""
	}
	return fmt.Sprintf("The first shares come to about %s together; what they lack of 100\u00a0%% is inputs acting together, and noise.", percent(sum))
}

// roughOdds returns a quantile of a sample in odds, to two digits or so.
func roughOdds(p float64) string {
	return page.Unbroken(figure.Odds(estimate.Estimate{Value: p, Low: 0.95 * p, High: min(1, 1.05*p)}))
}

// clamped returns a share within 0 and 1, which sampling may leave by a little.
func clamped(x float64) float64 { return math.Min(math.Max(x, 0), 1) }

// percent returns a share in whole per cent.
func percent(x float64) string { return figure.Whole(math.Round(100*clamped(x))) + "\u00a0%" }
