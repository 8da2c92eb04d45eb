package fleet

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	fleet "arrayodds/sim/fleet"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
	"github.com/go-echarts/go-echarts/v2/opts"
)

const (
	mostDrawn = fleet.Head
	mostRows  = 100 // of the table
)

var (
	alone = draw.Symbol{Shape: draw.Circle, Colour: draw.Orange}
	done  = draw.Symbol{Shape: draw.Diamond, Colour: draw.Teal}
)

// visitChart draws the head of the order: each array left alone, and with what helps most.
func (r ranking) visitChart() draw.Chart {
	c := draw.Chart{ID: "visits", Title: "Chance of losing footage within 30 days, where to go first on top"}
	var shown []*fleet.Standing
	for i := range r.Arrays[:r.Listed(r.Lost+mostDrawn)] {
		if s := &r.Arrays[i]; !s.Lost() {
			shown = append(shown, s)
		}
	}
	var all []estimate.Estimate
	for _, s := range shown {
		all = append(all, s.Loss, s.Left())
	}
	if len(shown) == 0 {
		c.Absent = "No array with drives down is left to lose, so there is nothing to draw."
		return c
	}
	axis := draw.NewLogAxis(all)
	var names, alt []string
	var series []echarts.SingleSeries
	helped := false
	for row, s := range shown {
		name := label.Cut(s.Name, 40)
		names = append(names, fmt.Sprintf("%d · %s", r.Lost+row+1, name))
		down := 0
		if s.Best != nil {
			down = -6
		}
		tip := func(e estimate.Estimate, what string) []string {
			return []string{label.OneLine(s.Name), s.Stands(), what, figure.Odds(e) + " within 30 days", "95 % interval: " + figure.OddsInterval(e)}
		}
		series = append(series, draw.RowEstimate{Name: "left alone", Symbol: alone, Estimate: s.Loss, Row: row, Down: down, Tip: tip(s.Loss, "left alone")}.Series(axis)...)
		text := fmt.Sprintf("%s: %s left alone", label.OneLine(s.Name), figure.Odds(s.Loss))
		if s.Best != nil {
			helped = true
			series = append(series, draw.RowEstimate{Name: "with it done", Symbol: done, Estimate: s.Best.Loss, Row: row, Down: 6, Tip: tip(s.Best.Loss, label.OneLine(s.Advice))}.Series(axis)...)
			text += fmt.Sprintf(", %s with %s", figure.Odds(s.Best.Loss), label.OneLine(s.Advice))
		}
		alt = append(alt, text)
	}
	c.Rows, c.Height = len(names), 46*len(names)+90
	c.Print = draw.RowsOnPaper(c.Height, 26*len(names)+90)
	c.Options = draw.Options(axis.Horizontal("chance of a loss within 30 days"), draw.RowAxis(names), draw.RowMargins(), series...)
	c.Key = append(c.Key, draw.KeyEntry{Drawing: draw.Mark{Symbol: alone}.Drawing(), Text: "left alone"})
	if helped {
		c.Key = append(c.Key, draw.KeyEntry{Drawing: draw.Mark{Symbol: done}.Drawing(), Text: "with the one thing done that helps most"})
	}
	c.Read = "Points are chances, the lines through them 95 % intervals (not seen where narrower than the point). The scale is one of powers of ten; the order is by what lies between the two points, not by their ratio."
	c.Alt = strings.Join(alt, "; ") + "."
	if r.Lost > 0 {
		c.Notes = append(c.Notes, fmt.Sprintf("Not drawn: %s lost already.", figure.Count(r.Lost, "array that is", "arrays that are")))
	}
	if more := r.Degraded - len(shown); more > 0 {
		c.Notes = append(c.Notes, fmt.Sprintf("Not drawn: %s with drives down, which are further down the order.", figure.Count(more, "array", "arrays")))
	}
	return c
}

// spread draws how many arrays there are at which chance.
func (r ranking) spread() draw.Chart {
	c := draw.Chart{ID: "spread", Title: "How many arrays stand at which chance", Height: 300}
	counts, degraded := map[int]int{}, map[int]int{}
	low, high, unseen := math.MaxInt, math.MinInt, 0
	for i := range r.Arrays {
		s := &r.Arrays[i]
		switch {
		case s.Lost():
			continue
		case !(s.Loss.Value > 0):
			unseen++
			continue
		}
		d := int(math.Floor(math.Log10(s.Loss.Value)))
		d = min(d, -1)
		counts[d]++
		if len(s.AreDown) > 0 {
			degraded[d]++
		}
		low, high = min(low, d), max(high, d)
	}
	if unseen > 0 {
		c.Notes = append(c.Notes, fmt.Sprintf("Not drawn: %s of which no loss was seen in the simulation.", figure.Count(unseen, "array", "arrays")))
	}
	if len(counts) == 0 {
		c.Absent = "No loss was seen in the simulation, so there is nothing to draw."
		return c
	}
	// Not too few bars to look like a scale.
	low = min(low, high-2)
	var names, alt []string
	var rows []draw.Point
	most := 0
	for d := high; d >= low; d-- {
		name := fmt.Sprintf("1 in %s to 1 in %s", power(-d-1), power(-d))
		if d == -1 {
			name = "above 1 in 10"
		}
		names = append(names, name)
		n := counts[d]
		most = max(most, n)
		text := fmt.Sprintf("%s: %s", name, figure.Count(n, "array", "arrays"))
		if degraded[d] > 0 {
			text += fmt.Sprintf(", %s of them with drives down", figure.Whole(float64(degraded[d])))
		}
		rows = append(rows, draw.Point{Value: []any{n, high - d}, Tip: []string{text}, Label: draw.NewLabel(figure.Whole(float64(n)), "right", "")})
		alt = append(alt, text)
	}
	x := draw.XAxis("arrays", 34, draw.PlainTicks)
	step := tickStep(most)
	x.Min, x.Max, x.MinInterval, x.MaxInterval = 0, step*(1+(most+most/9)/step), float64(step), float64(step)
	margins := draw.RowMargins()
	margins.Bottom = "58"
	bars := echarts.SingleSeries{Name: "arrays", Type: "bar", Data: rows, ItemStyle: &opts.ItemStyle{Color: draw.Teal}}
	c.Rows, c.Height = len(names), 38*len(names)+90
	c.Options = draw.Options(x, draw.RowAxis(names), margins, bars)
	c.Read = "Each bar is the number of arrays whose chance of losing footage within 30 days lies there."
	c.Alt = strings.Join(alt, "; ") + "."
	return c
}

// tickStep returns the distance of some three ticks on an axis of whole numbers.
func tickStep(most int) int {
	step := 1
	for step*3 < most {
		switch {
		case step*2*3 >= most:
			return step * 2
		case step*5*3 >= most:
			return step * 5
		}
		step *= 10
	}
	return step
}

// power returns ten to a power in words: 1, 10, 100, 1 000, up to a million.
func power(n int) string {
	switch {
	case n >= 9:
		return figure.Whole(math.Pow10(n-9)) + " billion"
	case n >= 6:
		return figure.Whole(math.Pow10(n-6)) + " million"
	}
	return figure.Whole(math.Pow10(n))
}
