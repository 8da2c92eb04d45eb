package fleet

import (
	_ "embed" // the files of this folder
	"fmt"
	"io"

	"arrayodds/array/label"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/figure"
	fleet "arrayodds/sim/fleet"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Visits   page.Table
	Listed   string // what of the order is not shown
	Models   page.Table
	Unlisted string // what of the models is not
	Order    string
}

//go:embed fleet.html
var text string

var pageTemplate = page.Template(text)

// Write writes the page as [page.Write] does.
func Write(w io.Writer, r fleet.Result) error { return page.Write(w, ranking{r}.contents()) }

func (r ranking) contents() *contents {
	charts := []draw.Chart{r.visitChart(), r.spread()}
	c := &contents{
		Visits: r.visitTable(), Models: r.modelTable(), Order: fleet.Order,
		Page: page.Page{
			Template: pageTemplate(),
			Title:    r.title(),
			Kind:     "where to go first",
			Charts:   charts,
			Inputs:   true,
			Heading:  "Where to go first",
			Lead:     r.Headline(),
			Points:   unbroken(append(append(r.First(), r.Count()+"."), r.Points()...)),
			Notes:    page.OneLines(r.Notes),
			Method:   r.method(),
			Footer:   page.NewFooter(fleet.Cautions(), nil),
		},
	}
	shown := len(c.Visits.Rows)
	if more := len(r.Arrays) - shown; more > 0 {
		c.Listed = fmt.Sprintf("Shown are the first %s of %s. All of them stand in the files that --csv, --xlsx and --json write.", figure.Whole(float64(shown)), figure.Count(len(r.Arrays), "array", "arrays"))
	}
	alone, summed := r.MoreModels(mostModels)
	if alone > 0 {
		c.Unlisted = fmt.Sprintf("Not shown: %s with fewer failures to expect, which stand in the files that --xlsx and --json write.", figure.Count(alone, "model", "models"))
	}
	if summed > 0 {
		c.Unlisted += fmt.Sprintf(" Those with the fewest drives, %s, are summed up there.", figure.Count(summed, "model", "models"))
	}
	return c
}

func (r ranking) title() string {
	if t := label.OneLine(r.Name); t != "" {
		return t
	}
	return "Fleet"
}

func (r ranking) method() string {
	return fmt.Sprintf("Each array was simulated from its state by forced branching, %s in all; those at the head of the order in more, until they were apart, to a 95 %% half-width of %s %% of what is taken off, or the budget of trials was used up. The year was simulated life by life, %s of the whole fleet. Seed %d: the same seed gives the same digits. What each site file says or leaves to the program, arrayodds check lists.",
		figure.Count(r.Lives, "life", "lives"), figure.Exact(100*r.Accuracy), figure.Count(r.Replicates, "year", "years"), r.Seed)
}

// unbroken returns sentences whose numbers are kept in one line.
func unbroken(sentences []string) (out []string) {
	for _, s := range sentences {
		out = append(out, page.Unbroken(s))
	}
	return out
}
