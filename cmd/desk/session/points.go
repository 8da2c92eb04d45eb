package session

import (
	"fmt"

	"arrayodds/array/label"
	"arrayodds/array/unit"
	"arrayodds/sim/answer"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
	"arrayodds/sim/teach"
)

// sweepPoints says what a sweep found: of each choice the values that meet the target, or
// else what the ends of the first input make of it.
func sweepPoints(v study.Sweep) []string {
	says := []string{}
	if b := v.BreakEven; b != nil {
		for _, row := range b.Rows {
			text := label.Short(row.Choice.Label) + ": "
			if row.Value.Known() {
				text += row.Text + ", "
			}
			says = append(says, text+row.Words+".")
		}
		return append(says, v.Notes...)
	}
	for _, c := range v.Curves {
		first, last := c.Points[0], c.Points[len(c.Points)-1]
		name := label.Short(c.Choice.Label)
		switch {
		case c.Untouched():
			says = append(says, fmt.Sprintf("%s: %s at every value.", name, figure.Odds(first.Loss)))
		default:
			says = append(says, fmt.Sprintf("%s: %s at %s, %s at %s.", name, pointWords(first), valueWords(v, 0), pointWords(last), valueWords(v, len(c.Points)-1)))
		}
	}
	return append(says, v.Notes...)
}

func pointWords(p study.Point) string {
	if p.Absent != "" {
		return "none (" + p.Absent + ")"
	}
	return figure.Odds(p.Loss)
}

// valueWords returns the values that the points at a place have.
func valueWords(v study.Sweep, at int) string {
	text := v.Inputs[0].Texts[v.ValueAt(0, at)]
	if len(v.Inputs) > 1 {
		text += " with " + v.Inputs[1].Texts[v.ValueAt(1, at)]
	}
	return text
}

// mostRanked is how many inputs of a choice are named.
const mostRanked = 3

// rankingPoints says of each choice what moves its loss chance most.
func rankingPoints(r study.Ranking) []string {
	says := []string{}
	for _, c := range r.Choices {
		var moves []string
		for _, in := range c.Inputs {
			if in.Slight() || len(moves) == mostRanked {
				break
			}
			name := in.Called
			if name == "" {
				name = in.Path
			}
			moves = append(moves, fmt.Sprintf("the %s (%s to %s: ×%s)", name, in.Low, in.High, figure.Ratio(in.Swing)))
		}
		if moves == nil {
			says = append(says, fmt.Sprintf("%s, %s as likely: no input moves it by 5 %% or more.", label.Short(c.Choice.Label), figure.Odds(c.Likely)))
			continue
		}
		says = append(says, fmt.Sprintf("%s, %s as likely, is moved most by %s.", label.Short(c.Choice.Label), figure.Odds(c.Likely), figure.List(moves)))
	}
	return append(says, r.Notes...)
}

// replayPoints says what lives are shown.
func replayPoints(r study.Replay) []string {
	kind := "as they come"
	if r.OnlyLosses {
		kind = "drawn from those in which footage is lost"
	}
	says := []string{fmt.Sprintf("%s of %s, %s; of all lives of %s footage is lost in %s.",
		figure.Count(len(r.Lives), "life", "lives"), label.Short(r.Choice.Label), kind, figure.Years(r.Site.ServiceLife/unit.HoursPerYear), answer.Odds(r.Loss))}
	return append(says, r.Warnings...)
}

// lessonPoints returns the questions of a lesson.
func lessonPoints(l teach.Lesson) []string {
	says := []string{}
	for _, q := range l.Questions {
		says = append(says, q.Title+". "+q.Ask)
	}
	return append(says, l.NotAsked...)
}
