package vary

import (
	_ "embed" // the files of this folder
	"fmt"
	"io"
	"strings"

	"arrayodds/array"
	"arrayodds/charts/draw"
	"arrayodds/charts/page"
	"arrayodds/sim/study"
)

// contents is what the template is given.
type contents struct {
	page.Page
	BreakEven *page.Table
	Tables    []page.Table
	Full      *page.Table // every pair of two inputs
	Pairs     int
}

//go:embed vary.html
var text string

var pageTemplate = page.Template(text)

// Write writes the page of inputs varied as [page.Write] does.
func Write(w io.Writer, s study.Sweep) error { return page.Write(w, sweep{s}.contents()) }

func (v sweep) contents() *contents {
	c := &contents{Tables: v.tables(), Page: page.Page{
		Template: pageTemplate(),
		Title:    page.SiteTitle(v.Site.Name),
		Kind:     "an input varied",
		Charts:   v.charts(),
		Inputs:   true,
		Heading:  "One input varied over " + page.ServiceLife(v.Site),
		Lead:     v.lead(),
		Points:   v.points(),
		Notes:    page.OneLines(v.Notes),
		Method:   page.Method(v.Seed, v.Accuracy, false),
		Footer:   v.footer(),
	}}
	if v.BreakEven != nil {
		t := v.breakEvenTable()
		c.BreakEven = &t
	}
	if len(v.Inputs) == 2 {
		c.Kind, c.Heading = "two inputs varied", "Two inputs varied over "+page.ServiceLife(v.Site)
		t := v.pairsTable()
		c.Full, c.Pairs = &t, len(v.Inputs[0].Texts)*len(v.Inputs[1].Texts)
	}
	return c
}

func (v sweep) charts() []draw.Chart {
	if len(v.Inputs) == 2 {
		return v.heatCharts()
	}
	own := v.variedChart(v.ownQuantity())
	if note := v.narrower(); note != "" && own.Absent == "" {
		own.Notes = append([]string{note}, own.Notes...)
	}
	all := []draw.Chart{v.variedChart(v.lossQuantity()), own}
	if v.against() >= 0 && len(v.Curves) > 1 {
		all = append(all, v.variedChart(v.againstQuantity()))
	}
	all[0].Notes = append(all[0].Notes, v.untouched()...)
	all[0].Notes = append(all[0].Notes, v.warningNotes()...)
	return all
}

func (v sweep) footer() page.Footer {
	var choices []array.Choice
	var paths []string
	for _, c := range v.Curves {
		choices = append(choices, c.Choice)
	}
	for _, in := range v.Inputs {
		paths = append(paths, spoken(in))
	}
	first := fmt.Sprintf("All but %s is held as the site file has it. In life inputs move together: a site that answers late may scrub late too.", strings.Join(paths, " and "))
	return page.NewFooter(page.Cautions(v.Site, choices, first), v.Assumptions)
}
