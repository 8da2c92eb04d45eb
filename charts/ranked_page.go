package charts

import (
	"cmp"
	"fmt"
	"io"
	"slices"

	"arrayodds/array"
	"arrayodds/charts/script"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
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

var rankedTemplate = pageOf(pageFiles, "page/ranked.html")

// WriteRanking writes the page, which needs no network. The same r gives the same
// bytes. Nothing is written where the page cannot be made.
func WriteRanking(w io.Writer, r study.Ranking) error {
	return ranking{r}.write(w, script.Charts())
}

func (r ranking) write(w io.Writer, script []byte) error {
	sh, err := newShell(r.Site.Name, "Unnamed site", "inputs ranked", script, r.charts())
	if err != nil {
		return err
	}
	if sh, err = sh.withScript(pageFiles, "page/varied.js"); err != nil {
		return err
	}
	var choices []array.Choice
	for _, c := range r.Choices {
		choices = append(choices, c.Choice)
	}
	p := rankedPage{shell: sh, Heading: "Which figure matters most, over " + figure.Years(r.years()), Lead: r.lead(), Points: r.points(),
		Tables: r.tables(), Method: methodOf(r.Seed, r.Accuracy), Notes: oneLines(r.Notes),
		foot: footOf(cautionsOn(r.Site, choices,
			"Each input is moved by itself, the others as likely. In life inputs move together: a site that answers late may scrub late too.",
			"A range that is too narrow makes an input look unimportant."), r.Assumptions)}
	if slices.ContainsFunc(r.Choices, func(c study.RankedChoice) bool { return withShares(c) != nil }) {
		p.Shares = "The first share of an input is what would go from the variance of the logarithm of the loss chance if that input were known; the total holds what it does together with others as well. Where the first shares come to less than 100 %, inputs act together."
	}
	return writePageTo(w, rankedTemplate, p)
}

func (r ranking) years() float64 { return r.Site.ServiceLife / array.HoursPerYear }

// mostRanked bounds the choices that are drawn: the safest, with every input at its
// likely value.
const mostRanked = 8

func (r ranking) shown() []int {
	var order []int
	for i := range r.Choices {
		order = append(order, i)
	}
	slices.SortStableFunc(order, func(a, b int) int { return cmp.Compare(r.Choices[a].Likely.Value, r.Choices[b].Likely.Value) })
	order = order[:min(mostRanked, len(order))]
	slices.Sort(order)
	return order
}

func (r ranking) charts() []chart {
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
