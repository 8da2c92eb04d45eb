package lesson

import (
	"encoding/json"
	"fmt"
	"math"
	"strings"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/teach"

	echarts "github.com/go-echarts/go-echarts/v2/charts"
)

// pointLook is how a point of a question is drawn, and what it is.
type pointLook struct {
	draw.Symbol
	brief string // behind the name of its row; empty: nothing
	text  string
}

var (
	beforeLook = pointLook{draw.Symbol{Shape: draw.Circle, Colour: draw.Teal}, "now", "as it stands"}
	afterLook  = pointLook{draw.Symbol{Shape: draw.Square, Colour: draw.Orange}, "asked", "what is asked about"}
	otherLook  = pointLook{draw.Symbol{Shape: draw.Circle, Colour: draw.Slate, Hollow: true}, "", "other settings"}
	guessLook  = pointLook{draw.Symbol{Shape: draw.Diamond, Colour: draw.Violet, Hollow: true}, "", "your prediction"}
)

func (l pointLook) key() draw.KeyEntry {
	text := l.text
	if l.brief != "" {
		text = l.brief + ": " + text
	}
	return draw.KeyEntry{Drawing: l.Drawing(), Text: text}
}

// lookOf returns the look of a point.
func lookOf(q teach.Question, place int) pointLook {
	switch place {
	case q.Before:
		return beforeLook
	case q.After:
		return afterLook
	}
	return otherLook
}

// lossesOf returns the estimates of the points that there are, and whether any of
// them can be drawn but at the low end of the scale.
func lossesOf(q teach.Question) (all []estimate.Estimate, found bool) {
	for _, p := range q.Points {
		if p.Absent == "" {
			all = append(all, p.Loss)
			found = found || p.Loss.High > 0
		}
	}
	return all, found
}

// chart returns the loss chance at every setting, a row each, with room for the
// prediction in the last series.
func (l lesson) chart(number int) draw.Chart {
	q := l.Questions[number-1]
	what := "footage"
	if q.Any {
		what = "any footage, be it one stripe,"
	}
	c := draw.Chart{ID: fmt.Sprintf("lesson-%d", number), Title: "Chance of losing " + what + " within " + page.ServiceLife(l.Site), Height: 52*len(q.Points) + 90, Rows: len(q.Points)}
	all, found := lossesOf(q)
	if !found {
		c.Absent = "No loss was found at any of the settings, so there is nothing to draw."
		return c
	}
	axis := draw.NewLogAxis(all)
	var series []echarts.SingleSeries
	var names, alt []string
	for i, p := range q.Points {
		look, name := lookOf(q, i), label.Short(p.Text)
		if look.brief != "" {
			name += " (" + look.brief + ")"
		}
		names = append(names, name)
		if p.Absent != "" {
			c.Notes = append(c.Notes, label.OneLine(p.Text)+" is not drawn: "+label.OneLine(p.Absent)+".")
			continue
		}
		alt = append(alt, fmt.Sprintf("%s: %s", label.OneLine(p.Text), figure.Odds(p.Loss)))
		tip := []string{label.OneLine(p.Text), figure.Odds(p.Loss), "95 % interval: " + figure.OddsInterval(p.Loss)}
		series = append(series, draw.RowEstimate{Name: name, Symbol: look.Symbol, Estimate: p.Loss, Row: i, Text: figure.Odds(p.Loss), Tip: tip}.Series(axis)...)
	}
	mine := guessLook.Series(guessLook.text, draw.SymbolSize, []draw.Point{}...) // the page's script fills it
	c.Options = draw.Options(axis.Horizontal("chance of a loss within "+page.ServiceLife(l.Site)), draw.RowAxis(names), draw.RowMargins(), append(series, mine)...)
	c.Key = []draw.KeyEntry{beforeLook.key(), afterLook.key()}
	if len(q.Points) > 2 {
		c.Key = append(c.Key, otherLook.key())
	}
	c.Key = append(c.Key, guessLook.key())
	c.Read = "Further left is safer, on a scale of powers of ten; the line through a point is its 95 % interval (not seen where narrower than the point)."
	c.Alt = "Chance of losing footage at each setting. " + strings.Join(alt, "; ") + "."
	return c
}

// guessPlace is where a prediction is drawn, and the scale that holds it.
type guessPlace struct {
	Point       draw.Point `json:"point"`
	Min         int        `json:"min"`
	Max         int        `json:"max"`
	MinInterval float64    `json:"minInterval"`
	MaxInterval float64    `json:"maxInterval"`
}

// guessPlaces returns those of all places of the slider; nil where none can be
// drawn.
func guessPlaces(q teach.Question, all []guess) []guessPlace {
	drawn, found := lossesOf(q)
	if !found || q.PointBefore().Absent != "" || !(q.PointBefore().Loss.Value > 0) {
		return nil
	}
	fixed := false // what stands at the low end of the scale cannot move with it
	for _, e := range drawn {
		fixed = fixed || !(e.Value > 0)
	}
	var places []guessPlace
	for _, g := range all {
		p := math.Min(1, q.PointBefore().Loss.Value*g.Times)
		axis := draw.NewLogAxis(drawn)
		if !fixed {
			axis = draw.NewLogAxis(append(drawn[:len(drawn):len(drawn)], estimate.Estimate{Value: p, Low: p, High: p}))
		}
		at := math.Min(float64(axis.Max), math.Max(float64(axis.Min), draw.Log10(p)))
		mine := draw.Point{Value: []any{at, q.After}, Tip: []string{"your prediction", g.Text, figure.Chance(p)}}
		places = append(places, guessPlace{mine, axis.Min, axis.Max, float64(axis.Step), float64(axis.Step)})
	}
	return places
}

// guessSeries returns the place of the prediction's series in a chart's options.
func guessSeries(c draw.Chart) int {
	var o struct{ Series []json.RawMessage }
	if c.Absent != "" || json.Unmarshal(c.Options, &o) != nil {
		return 0
	}
	return len(o.Series) - 1
}
