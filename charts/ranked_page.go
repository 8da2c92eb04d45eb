package charts

import (
	"cmp"
	"fmt"
	"io"
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/charts/figure"
	"arrayodds/sim"
)

// rankedPage is what the template is given.
type rankedPage struct {
	shell
	foot
	Heading string
	Lead    string
	Points  []string // what to find out first, a sentence or two a choice
	Shares  string   // how to read the shares; empty: none were worked out
	Tables  []table
	Method  string
	Notes   []string
}

var rankedTemplate = pageOf("ranked.html")

// WriteHTML writes the page, which needs no network. The same r gives the same
// bytes. Nothing is written where the page cannot be made.
func (r Ranked) WriteHTML(w io.Writer) error {
	return r.write(w, chartScript(scriptFiles))
}

func (r Ranked) write(w io.Writer, script []byte) error {
	sh, err := newShell(r.Site.Name, "Unnamed site", "inputs ranked", script, r.charts())
	if err != nil {
		return err
	}
	if sh, err = sh.withScript("varied.js"); err != nil {
		return err
	}
	var choices []array.Choice
	for _, c := range r.Choices {
		choices = append(choices, c.Choice)
	}
	p := rankedPage{shell: sh, Heading: "Which figure matters most, over " + years(r.years()), Lead: r.lead(), Points: r.points(),
		Tables: r.tables(), Method: methodOf(r.Seed, r.Accuracy), Notes: oneLines(r.Notes),
		foot: footOf(cautionsOn(r.Site, choices,
			"Each input is moved by itself, the others as likely. In life inputs move together: a site that answers late may scrub late too.",
			"A range that is too narrow makes an input look unimportant."), r.Assumptions)}
	if r.Thorough {
		p.Shares = "The first share of an input is what would go from the variance of the logarithm of the loss chance if that input were known; the total holds what it does together with others as well. Where the first shares come to less than 100 %, inputs act together."
	}
	return writePageTo(w, rankedTemplate, p)
}

func (r Ranked) years() float64 { return r.Site.ServiceLife / array.HoursPerYear }

// mostRanked bounds the choices that are drawn: the safest, with every input at its
// likely value.
const mostRanked = 8

func (r Ranked) shown() []int {
	var order []int
	for i := range r.Choices {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(r.Choices[a].Likely.Value, r.Choices[b].Likely.Value) })
	order = order[:min(mostRanked, len(order))]
	slices.Sort(order)
	return order
}

func (r Ranked) charts() []chart {
	var all []chart
	for _, i := range r.shown() {
		all = append(all, r.swingChart(i))
		if c, ok := r.sharesChart(i); ok {
			all = append(all, c)
		}
	}
	if len(r.Choices) > mostRanked {
		all[0].Notes = append(all[0].Notes, fmt.Sprintf("The %d safest choices are drawn; the tables have all.", mostRanked))
	}
	return all
}

func (r Ranked) lead() string {
	inputs, given := map[string]bool{}, map[string]bool{}
	for _, c := range r.Choices {
		for _, in := range c.Inputs {
			inputs[in.Path] = true
			if in.Given {
				given[in.Path] = true
			}
		}
	}
	text := fmt.Sprintf("%s that bear on the risk, each moved from its low to its high: the wider the swing, the more it is worth finding the figure out.", capital(count(len(inputs), "input", "inputs")))
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
func (r Ranked) points() []string {
	var out []string
	guessed, same := false, len(r.Choices) > 1
	for _, c := range r.Choices {
		same = same && len(c.Inputs) > 0 && c.Inputs[0].Path == r.Choices[0].Inputs[0].Path
	}
	if same {
		out = append(out, fmt.Sprintf("For every choice, find out %s first.", short(r.Choices[0].Inputs[0].Path)))
	}
	for i, c := range r.Choices {
		m := markOf(i, c.Choice.Label)
		if len(c.Inputs) == 0 {
			out = append(out, fmt.Sprintf("%s: no input bears on it.", m.brief()))
			continue
		}
		in := c.Inputs[0]
		guessed = guessed || !in.Given
		first := "find out " + short(in.Path) + " first. From "
		if same {
			first = "from "
		}
		out = append(out, fmt.Sprintf("%s: %s%s to %s the chance of a loss goes from %s to %s%s.", m.brief(), first, oneLine(in.Low), oneLine(in.High),
			figure.Odds(in.AtLow), figure.Odds(in.AtHigh), swingWords(in.Swing)))
		if c.Spread.Value > 0 {
			out = append(out, fmt.Sprintf("%s: with all inputs moving at once, nine in ten loss chances lie between %s and %s, half of them below %s.", m.brief(),
				roughOdds(c.Spread.Low), roughOdds(c.Spread.High), roughOdds(c.Spread.Value)))
		}
		if c.Noise > 0.01 {
			out = append(out, fmt.Sprintf("%s: about %s %% of that variance is the simulation's own noise.", m.brief(), figure.Exact(math.Round(100*c.Noise))))
		}
	}
	if guessed {
		out = append(out, "Where the range that leads is a default, the first thing is to give a real one in the site file, as { low = ..., likely = ..., high = ... }.")
	}
	return out
}

// roughOdds is a quantile of a sample in odds, to two digits or so.
func roughOdds(p float64) string {
	return figure.Odds(sim.Estimate{Value: p, Low: 0.95 * p, High: min(1, 1.05*p)})
}

func swingWords(e sim.Estimate) string {
	if math.IsInf(e.Value, 0) || math.IsInf(e.High, 0) {
		return ""
	}
	return ", " + ratioText(e) + " times"
}
