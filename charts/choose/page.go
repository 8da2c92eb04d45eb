package choose

import (
	_ "embed" // the files of this folder
	"fmt"
	"io"
	"math"

	"arrayodds/array"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/answer"
	"arrayodds/sim/choose"
	"arrayodds/sim/figure"
)

// contents is what the template is given.
type contents struct {
	page.Page
	Tables []page.Table
}

//go:embed choose.html
var text string

var pageTemplate = page.Template(text)

// Write writes the page of a search as [page.Write] does.
func Write(w io.Writer, f choose.Found) error { return page.Write(w, found{f}.contents()) }

// found is a search as its page draws it.
type found struct{ choose.Found }

func (f found) contents() *contents {
	var choices []array.Choice
	for _, o := range f.Finalists.Outcomes {
		choices = append(choices, o.Choice)
	}
	says := answer.Of(f.Finalists)
	notes := append([]string{f.searched()}, says.LeftOut...)
	if next := f.NextWords(); next != "" {
		notes = append(notes, next)
	}
	return &contents{
		Tables: []page.Table{f.finalistsTable(says), f.frontTable()},
		Page: page.Page{
			Template: pageTemplate(),
			Title:    page.SiteTitle(f.Site.Name),
			Kind:     "designs searched",
			Charts:   f.charts(),
			Heading:  "The cheapest that is safe enough, over " + page.ServiceLife(f.Site),
			Lead:     f.lead(),
			Points:   f.Says,
			Notes:    notes,
			Method:   page.Method(f.Seed, f.Finalists.Accuracy, false),
			Footer: page.NewFooter(page.Cautions(f.Site, choices,
				"Designs that are not on the front are known by few lives. One that costs a little more may still suit better: bays to spare, drives that are at hand, a recorder that somebody knows."), f.Assumptions),
		},
	}
}

// lead says what was searched for.
func (f found) lead() string {
	text := fmt.Sprintf("Of %s designs, which is the cheapest that is safe enough", figure.Whole(float64(len(f.Designs))))
	if len(f.Site.Cameras) > 0 {
		cameras := 0
		for _, c := range f.Site.Cameras {
			cameras += c.Count
		}
		text += fmt.Sprintf(" for the footage of %s", figure.Count(cameras, "camera", "cameras"))
	}
	return text + "?"
}

// searched says how the search went.
func (f found) searched() string {
	var begun []string
	for _, n := range f.Begun {
		begun = append(begun, figure.Whole(float64(n)))
	}
	return fmt.Sprintf("The rounds of the race began with %s designs, and %s were held against the goal over all that is uncertain.",
		figure.List(begun), figure.Whole(float64(f.Compared)))
}

// marks returns the marks of the finalists, numbered from the cheapest.
func (f found) marks() []draw.Mark {
	var all []draw.Mark
	for i, o := range f.Finalists.Outcomes {
		m := draw.MarkOf(i, o.Choice.Label)
		m.Hollow = !answer.MeetsGoal(f.Finalists, o)
		all = append(all, m)
	}
	return all
}

// finalistsTable returns the designs that were compared over the doubt.
func (f found) finalistsTable(says answer.Answer) page.Table {
	sums := figure.CurrencyName(f.Site.Currency)
	t := page.Table{
		Title: "Held against the goal over all that is uncertain",
		Of:    "Design",
		Intro: "The cheapest first. Filled marks meet the goal, hollow ones do not.",
		Columns: []page.Column{{Name: "A loss in " + page.ServiceLife(f.Site), Unit: "odds in all"}, {Name: "Spread", Unit: "5 % to 95 % of the settings"}, {Name: "A clip missing", Unit: "odds in all"},
			{Name: "To buy", Unit: sums}, {Name: "Over the service life", Unit: sums}, {Name: "Goal"}},
	}
	for i, m := range f.marks() {
		o, c := f.Finalists.Outcomes[i], says.Choices[i]
		missing := page.Cell{Main: "no cameras given"}
		if o.Result.HasCameras {
			missing = page.Cell{Main: page.Unbroken(answer.Odds(answer.MissingRisk(o)))}
		}
		goal := page.Cell{Main: c.Goal}
		if i == f.Recommended {
			goal = page.Cell{Main: "recommended", Sub: c.Goal}
		}
		m.Hollow = false // which a table would take for too small
		t.Rows = append(t.Rows, page.Row{Mark: m, Warnings: page.OneLines(o.Result.Warnings), Cells: []page.Cell{
			{Main: page.Unbroken(c.InAll), Sub: c.Class}, {Main: page.Unbroken(c.Spread)}, missing,
			page.MoneyCell(o.Sizing.Purchase), page.MoneyCell(math.Round(o.CostOfLife(f.Site).Total().Value)), goal,
		}})
	}
	return t
}

// frontTable returns every design of which no other is cheaper and safer.
func (f found) frontTable() page.Table {
	sums := figure.CurrencyName(f.Site.Currency)
	t := page.Table{
		Title: "The front: nothing is cheaper and safer and misses no more clips",
		Of:    "Design",
		Intro: "As entered, at the likely value of every input. A group that is wider than is customary says so.",
		Columns: []page.Column{{Name: "Over the service life", Unit: sums}, {Name: "To buy", Unit: sums}, {Name: "A loss in " + page.ServiceLife(f.Site), Unit: "odds"},
			{Name: "A clip missing", Unit: "odds"}, {Name: "Width"}},
	}
	none := draw.Symbol{Shape: draw.NoShape}
	for n, d := range f.front() {
		width := page.Cell{Main: "customary"}
		if !d.Customary {
			width = page.Cell{Main: "wider than customary", Sub: figure.Count(d.Sizing.Shape.DrivesInGroup, "drive", "drives") + " in a group"}
		}
		missing := page.Cell{Main: "no cameras given"}
		if d.Missing.Known() {
			missing = page.ChanceCell(d.Missing)
		}
		m := draw.MarkOf(n, d.Choice.Label)
		m.Symbol = none
		t.Rows = append(t.Rows, page.Row{Mark: m, Cells: []page.Cell{
			page.MoneyCell(math.Round(d.Cost)), page.MoneyCell(d.Sizing.Purchase), page.ChanceCell(d.Loss), missing, width}})
	}
	return t
}

// front returns the designs of the front, the cheapest first.
func (f found) front() (all []choose.Design) {
	for _, d := range f.Designs {
		if d.Front {
			all = append(all, d)
		}
	}
	return all
}
