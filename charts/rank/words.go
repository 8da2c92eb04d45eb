package rank

import (
	"fmt"
	"math"
	"slices"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// lead says how many inputs moved, and whose ranges those are.
func (r ranking) lead() string {
	inputs, given := map[string]bool{}, map[string]bool{}
	for _, c := range r.Choices {
		for _, in := range c.Inputs {
			inputs[in.Path] = true
			if in.Given {
				given[in.Path] = true
			}
		}
	}
	if len(inputs) == 0 {
		return "No input that could be uncertain bears on the risk."
	}
	text := fmt.Sprintf("%s on the risk, each moved from its low to its high: the wider the swing, the more it is worth finding the figure out.", figure.Count(len(inputs), "input bears", "inputs bear"))
	switch {
	case len(given) == 0:
		text += " None has a range in the site file; the ranges taken are guesses."
	case len(given) < len(inputs):
		text += fmt.Sprintf(" The site file gives the range of %d; those of the others are guesses.", len(given))
	}
	return text
}

// points says of each choice what to find out first; once, where it is the same
// for all.
func (r ranking) points() []string {
	var out, guessed []string
	same := len(r.Choices) > 1 && !slices.ContainsFunc(r.Choices, func(c study.RankedChoice) bool {
		return len(c.Inputs) == 0 || c.Inputs[0].Path != r.Choices[0].Inputs[0].Path
	})
	if same {
		out = append(out, fmt.Sprintf("Find out first: %s. It moves every choice the most.", spoken(r.Choices[0].Inputs[0])))
	}
	for i, c := range r.Choices {
		text := draw.MarkOf(i, c.Choice.Label).Brief() + ": "
		if len(c.Inputs) == 0 {
			out = append(out, fmt.Sprintf("%sno input bears on it; the chance of a loss is %s.", text, page.OddsText(c.Likely)))
			continue
		}
		first := c.Inputs[0]
		if !same {
			text += "find out first " + spoken(first) + ". "
		}
		if name := spokenPath(first); !first.Given && !slices.Contains(guessed, name) {
			guessed = append(guessed, name)
		}
		text += swingWords(first, !same) + doubtWords(c)
		if spread := spreadWords(c, page.ServiceLife(r.Site)); spread != "" {
			text += " " + spread
		}
		out = append(out, text)
	}
	const advice = " the first thing is to give a real one in the site file, as { low = ..., likely = ..., high = ... }."
	switch len(guessed) {
	case 0:
	case 1:
		out = append(out, fmt.Sprintf("The range of %s is only a default, a guess:%s", guessed[0], advice))
	default:
		out = append(out, fmt.Sprintf("The ranges of %s are only defaults, which are guesses: for each of them%s", figure.Some(guessed), advice))
	}
	return out
}

// swingWords says what moving the input does to the chance of a loss.
func swingWords(in study.RankedInput, begins bool) string {
	from := "from"
	if begins {
		from = "From"
	}
	text := fmt.Sprintf("%s %s to %s, the chance of a loss goes from %s to %s", from, label.OneLine(in.Low), label.OneLine(in.High), page.Unbroken(figure.Odds(in.AtLow)), page.Unbroken(figure.Odds(in.AtHigh)))
	if boundless(in.Swing) {
		return text + "."
	}
	return fmt.Sprintf("%s: a factor of %s (%s).", text, figure.Ratio(in.Swing), figure.RatioInterval(in.Swing))
}

// doubtWords says where the widest swing is not so beyond doubt.
func doubtWords(c study.RankedChoice) string {
	widest := c.Inputs[0].Swing
	switch {
	case boundless(widest):
		return ""
	case widest.Low <= 1:
		return " Not beyond doubt: the interval holds a swing of nothing."
	}
	var tied []string
	for _, in := range c.Inputs[1:] {
		if boundless(in.Swing) || in.Swing.High >= widest.Low {
			tied = append(tied, spoken(in))
		}
	}
	if tied == nil {
		return ""
	}
	return fmt.Sprintf(" Not beyond doubt: %s may matter as much.", figure.Some(tied))
}

// boundless reports whether a swing has no upper end, as one of its chances is 0.
func boundless(swing estimate.Estimate) bool {
	return math.IsInf(swing.Value, 0) || math.IsInf(swing.High, 0)
}
