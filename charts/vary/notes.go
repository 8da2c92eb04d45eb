package vary

import (
	"fmt"
	"math"
	"slices"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// leftOut says which points a drawing lacks, or shows by a pointer alone.
func (v sweep) leftOut(q quantity) []string {
	var notes []string
	for c, m := range v.marks() {
		if c == q.skip {
			continue
		}
		var none, unknown []string
		var reasons []string
		absent := map[string][]string{}
		for i, p := range v.Curves[c].Points {
			e, at := q.of(p), v.valueText(i)
			switch {
			case p.Absent != "":
				why := label.OneLine(p.Absent)
				if absent[why] == nil {
					reasons = append(reasons, why)
				}
				absent[why] = append(absent[why], at)
			case !draw.Known(e):
				unknown = append(unknown, at)
			case e.Value == 0:
				none = append(none, at)
			}
		}
		for _, why := range reasons {
			notes = append(notes, fmt.Sprintf("No figures for %s at %s: %s.", m.Numbered(), figure.Some(absent[why]), why))
		}
		if none != nil {
			notes = append(notes, fmt.Sprintf("%s, as %s: %s at %s.", q.shown(), q.none, m.Numbered(), figure.Some(none)))
		}
		if unknown != nil {
			notes = append(notes, fmt.Sprintf("Not drawn, as there is nothing to divide by: %s at %s.", m.Numbered(), figure.Some(unknown)))
		}
	}
	return notes
}

// untouched says of each choice on which no input bears what it comes to, in place of a
// drawing.
func (v sweep) untouched() (notes []string) {
	which, verb := "input", "does"
	if len(v.Inputs) > 1 {
		which, verb = "inputs", "do"
	}
	for i, m := range v.marks() {
		if c := v.Curves[i]; c.Untouched() {
			notes = append(notes, fmt.Sprintf("%s: %s at every %s. The %s %s not bear on it.", m.Numbered(), figure.Odds(c.Points[0].Loss), v.valueWord(), which, verb))
		}
	}
	return notes
}

// valueWord returns what a point is of.
func (v sweep) valueWord() string {
	if len(v.Inputs) > 1 {
		return "pair of values"
	}
	return "value"
}

// valueText returns a point's value, or pair of values, in words.
func (v sweep) valueText(i int) string {
	n := len(v.Inputs[0].Texts)
	text := label.OneLine(v.Inputs[0].Texts[i%n])
	if len(v.Inputs) == 2 {
		text += " with " + label.OneLine(v.Inputs[1].Texts[i/n])
	}
	return text
}

// warningsOf returns the warnings of a choice's points, each once, with the values
// where it stands.
func (v sweep) warningsOf(choice int) []string {
	var texts []string
	at := map[string][]string{}
	for i, p := range v.Curves[choice].Points {
		for _, w := range p.Warnings {
			text := label.OneLine(w)
			if at[text] == nil {
				texts = append(texts, text)
			}
			at[text] = append(at[text], v.valueText(i))
		}
	}
	for i, text := range texts {
		texts[i] = "at " + figure.Some(at[text]) + ": " + text
	}
	return texts
}

// warningNotes repeats them under a drawing.
func (v sweep) warningNotes() []string {
	var notes []string
	for i, m := range v.marks() {
		for _, w := range v.warningsOf(i) {
			notes = append(notes, "Warning for "+m.Numbered()+", "+w)
		}
	}
	return notes
}

// narrower says how much narrower the interval of the ratio is than two runs of
// their own would have given; empty where that cannot be told.
func (v sweep) narrower() string {
	var gain []float64
	width := func(e estimate.Estimate) float64 {
		if !draw.Drawable(e) || math.IsInf(e.High, 0) || !(e.High > e.Low) {
			return math.NaN()
		}
		return (e.High - e.Low) / e.Value
	}
	for _, c := range v.Curves {
		for _, p := range c.Points {
			if g := width(p.Apart) / width(p.ToOwn); p.Absent == "" && !math.IsNaN(g) {
				gain = append(gain, g)
			}
		}
	}
	if gain == nil {
		return ""
	}
	slices.Sort(gain)
	median := (gain[(len(gain)-1)/2] + gain[len(gain)/2]) / 2
	text := figure.Number(estimate.Estimate{Value: median, Low: 0.95 * median, High: 1.05 * median})
	if median < 1.05 {
		return fmt.Sprintf("Sharing random streams made the interval no narrower here than two runs of their own would have (%s times, the median of %s).", text, figure.Count(len(gain), "point", "points"))
	}
	return fmt.Sprintf("The interval of the ratio is %s times narrower than two runs of their own would have given (the median of %s): differences along the input are known better than the chances themselves.", text, figure.Count(len(gain), "point", "points"))
}
