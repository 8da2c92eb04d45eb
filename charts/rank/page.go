package rank

import (
	_ "embed" // the files of this folder

	"cmp"
	"fmt"
	"io"
	"slices"

	"arrayodds/array"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/charts/script"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// content is what the template is given.
type content struct {
	page.Layout
	page.Footer
	Heading string
	Lead    string
	Points  []string // what to find out first, a sentence or two a choice
	Shares  string   // how to read the shares; empty: none were worked out
	Tables  []page.Table
	Method  string
	Notes   []string
}

//go:embed rank.html
var text string

var pageTemplate = page.Template(text)

// Write writes the page, which needs no network. The same r gives the same
// bytes. Nothing is written where the page cannot be made.
func Write(w io.Writer, r study.Ranking) error {
	return ranking{r}.write(w, script.Charts())
}

func (r ranking) write(w io.Writer, script []byte) error {
	sh := page.NewLayout(r.Site.Name, "Unnamed site", "inputs ranked", script, r.charts())
	sh = sh.WithInputs()
	var choices []array.Choice
	for _, c := range r.Choices {
		choices = append(choices, c.Choice)
	}
	p := content{Layout: sh, Heading: "Which figure matters most, over " + figure.Years(r.years()), Lead: r.lead(), Points: r.points(),
		Tables: r.tables(), Method: page.MethodOf(r.Seed, r.Accuracy), Notes: page.OneLines(r.Notes),
		Footer: page.NewFooter(page.CautionsOn(r.Site, choices,
			"Each input is moved by itself, the others as likely. In life inputs move together: a site that answers late may scrub late too.",
			"A range that is too narrow makes an input look unimportant."), r.Assumptions)}
	if slices.ContainsFunc(r.Choices, func(c study.RankedChoice) bool { return withShares(c) != nil }) {
		p.Shares = "The first share of an input is what would go from the variance of the logarithm of the loss chance if that input were known; the total holds what it does together with others as well. Where the first shares come to less than 100 %, inputs act together."
	}
	return page.Execute(w, pageTemplate, p)
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

func (r ranking) charts() []draw.Chart {
	var all []draw.Chart
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
