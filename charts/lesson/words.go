package lesson

import (
	"fmt"
	"math"
	"strings"

	"arrayodds/array/label"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/teach"
)

// steps of a prediction in a decade: round numbers, nearly evenly apart on a
// scale of powers of ten.
var guessSteps = []float64{1, 1.2, 1.5, 2, 2.5, 3, 4, 5, 6, 8}

// guessDecades is how far a prediction reaches either way: 1 000 times.
const guessDecades = 3

// guess is one place of the slider.
type guess struct {
	Times float64 // loss chance after ÷ before
	Text  string
}

// guesses returns all places of the slider, from 1 000 times safer to 1 000 times
// riskier, the same in the middle.
func guesses() []guess {
	all := []guess{{1, "just as safe as before"}}
	scale := 1.0
	for range guessDecades {
		for _, step := range append(guessSteps[1:], 10) {
			times := step * scale
			n := figure.Exact(times)
			all = append(all, guess{times, "about " + n + " times riskier"})
			all = append([]guess{{1 / times, "about " + n + " times safer"}}, all...)
		}
		scale *= 10
	}
	return all
}

// answerWords returns how many times riskier or safer, and its interval.
func answerWords(q teach.Question) (main, interval string) {
	for _, p := range []teach.Point{q.PointBefore(), q.PointAfter()} {
		if p.Absent != "" {
			return "There is no figure for it", label.OneLine(p.Text) + ": " + label.OneLine(p.Absent)
		}
	}
	e := q.Times
	switch {
	case e.Value == 0:
		return "Safer than the simulation can tell: no loss was found any more", ""
	case !(e.Value > 0) || math.IsInf(e.Value, 0):
		return "How many times riskier or safer is not known: no loss was found as it stands", ""
	case e.Low == 1 && e.High == 1:
		return "Exactly as safe as before", "it makes no difference"
	case e.Low <= 1 && e.High >= 1 && e.Low > 0.99 && e.High < 1.01:
		return "No difference that the simulation can tell", "95 % interval: less than 1 % either way"
	case e.Low <= 1 && e.High >= 1:
		return "No difference that the simulation can tell", "95 % interval: " + sided(e.Low) + " to " + sided(e.High)
	case e.Value < 1:
		high := math.Inf(1)
		if e.Low > 0 {
			high = 1 / e.Low
		}
		value, interval := figure.Bounded(estimate.Estimate{Value: 1 / e.Value, Low: 1 / e.High, High: high})
		return value + " times safer", intervalText(e, interval)
	}
	value, interval := figure.Bounded(e)
	return value + " times riskier", intervalText(e, interval)
}

func intervalText(e estimate.Estimate, interval string) string {
	if e.Low == e.High {
		return "a closed form, without an interval"
	}
	if strings.HasPrefix(interval, "±") {
		return "95 % interval: " + interval
	}
	return "95 % interval: " + interval + " times"
}

// sided returns a ratio near 1 in words.
func sided(times float64) string {
	if times >= 1 {
		return hundredth(times) + " times riskier"
	}
	if times <= 0 {
		return "any number of times safer"
	}
	return hundredth(1/times) + " times safer"
}

func hundredth(x float64) string {
	return figure.Number(estimate.Estimate{Value: x, Low: 0.99 * x, High: 1.01 * x})
}

// verdictOn sets a prediction beside the answer.
func verdictOn(q teach.Question, g guess) string {
	if !q.Answered() {
		return ""
	}
	e := q.Times
	if g.Times >= e.Low && g.Times <= e.High {
		return "That is within what the simulation leaves open."
	}
	off := g.Times / e.Value
	far, side := math.Max(off, 1/off), "high"
	if off < 1 {
		side = "low"
	}
	if far < 1.25 {
		return "That is very nearly it."
	}
	about := figure.Number(estimate.Estimate{Value: far, Low: 0.8 * far, High: 1.2 * far})
	text := fmt.Sprintf("Your figure for the risk is too %s, by about %s times", side, about)
	if opposite(g.Times, e) {
		text += ", and it goes the other way"
	}
	return text + "."
}

// opposite reports whether a prediction and the answer lie on two sides of 1.
func opposite(times float64, e estimate.Estimate) bool {
	return times < 1 && e.Low > 1 || times > 1 && e.High < 1
}
