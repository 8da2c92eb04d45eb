package vary

import (
	_ "embed" // the files of this folder

	"fmt"
	"io"
	"strings"

	"arrayodds/array"
	"arrayodds/array/label"
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
	Heading   string
	Lead      string
	Points    []string // the short answer, a sentence each
	BreakEven *page.Table
	Tables    []page.Table
	Full      *page.Table // every pair of two inputs
	Pairs     int
	Method    string
	Notes     []string
}

//go:embed vary.html
var text string

var pageTemplate = page.Template(text)

// Write writes the page, which needs no network. The same v gives the same
// bytes. Nothing is written where the page cannot be made.
func Write(w io.Writer, v study.Sweep) error {
	return sweep{v}.write(w, script.Charts())
}

func (v sweep) write(w io.Writer, script []byte) error {
	kind, heading := "an input varied", "One input varied over "+figure.Years(v.years())
	if len(v.Inputs) == 2 {
		kind, heading = "two inputs varied", "Two inputs varied over "+figure.Years(v.years())
	}
	sh := page.NewLayout(v.Site.Name, "Unnamed site", kind, script, v.charts())
	sh = sh.WithInputs()
	p := content{Layout: sh, Heading: heading, Lead: v.lead(), Points: v.points(), Tables: v.tables(),
		Method: page.MethodOf(v.Seed, v.Accuracy), Notes: page.OneLines(v.Notes), Footer: v.foot()}
	if v.BreakEven != nil {
		t := v.breakEvenTable()
		p.BreakEven = &t
	}
	if len(v.Inputs) == 2 {
		t := v.pairsTable()
		p.Full, p.Pairs = &t, len(v.Inputs[0].Texts)*len(v.Inputs[1].Texts)
	}
	return page.Execute(w, pageTemplate, p)
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
	all[0].Notes = append(all[0].Notes, v.warningNotes()...)
	return all
}

func (v sweep) years() float64 { return v.Site.ServiceLife / array.HoursPerYear }

func (v sweep) foot() page.Footer {
	var choices []array.Choice
	var paths []string
	for _, c := range v.Curves {
		choices = append(choices, c.Choice)
	}
	for _, in := range v.Inputs {
		paths = append(paths, label.Short(in.Path))
	}
	first := fmt.Sprintf("All but %s is held as the site file has it. In life inputs move together: a site that answers late may scrub late too.", strings.Join(paths, " and "))
	return page.NewFooter(page.CautionsOn(v.Site, choices, first), v.Assumptions)
}
