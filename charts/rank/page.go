package rank

import (
	_ "embed" // the files of this folder
	"fmt"
	"io"
	"slices"

	"arrayodds/array"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/study"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Shares string // how to read the shares; empty: none were worked out
	Tables []page.Table
}

//go:embed rank.html
var text string

var pageTemplate = page.Template(text)

// Write writes the page of inputs ranked as [page.Write] does.
func Write(w io.Writer, r study.Ranking) error { return page.Write(w, ranking{r}.contents()) }

func (r ranking) contents() *contents {
	c := &contents{Tables: r.tables(), Page: page.Page{
		Template: pageTemplate(),
		Title:    page.SiteTitle(r.Site.Name),
		Kind:     "inputs ranked",
		Charts:   r.charts(),
		Inputs:   true,
		Heading:  "Which figure matters most, over " + page.ServiceLife(r.Site),
		Lead:     r.lead(),
		Points:   r.points(),
		Notes:    page.OneLines(r.Notes),
		Method:   page.Method(r.Seed, r.Accuracy, false),
		Footer:   r.footer(),
	}}
	if slices.ContainsFunc(r.Choices, func(c study.RankedChoice) bool { return withShares(c) != nil }) {
		c.Shares = "The first share of an input is what would go from the variance of the logarithm of the loss chance if that input were known; the total holds what it does together with others as well. Where the first shares come to less than 100 %, inputs act together."
	}
	return c
}

func (r ranking) footer() page.Footer {
	var choices []array.Choice
	for _, c := range r.Choices {
		choices = append(choices, c.Choice)
	}
	return page.NewFooter(page.Cautions(r.Site, choices,
		"Each input is moved by itself, the others as likely. In life inputs move together: a site that answers late may scrub late too.",
		"A range that is too narrow makes an input look unimportant."), r.Assumptions)
}

// mostRanked bounds the choices that are drawn: the safest, with every input at its
// likely value.
const mostRanked = 8

func (r ranking) shown() []int {
	return page.Least(len(r.Choices), mostRanked, func(i int) float64 { return r.Choices[i].Likely.Value })
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
