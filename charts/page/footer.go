package page

import (
	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/site"
	"arrayodds/sim/study"
)

// Footer is what stands at the end of a page.
type Footer struct {
	Assumptions []site.Assumption
	Defaults    bool // some were left to the program
	Cautions    []string
}

func NewFooter(cautions []string, assumptions []site.Assumption) Footer {
	f := Footer{Cautions: cautions}
	for _, a := range assumptions {
		f.Assumptions = append(f.Assumptions, site.Assumption{Path: label.OneLine(a.Path), Text: label.OneLine(a.Text), Default: a.Default})
		f.Defaults = f.Defaults || a.Default
	}
	return f
}

// CautionsOn returns the cautions on choices of a site, behind a page's own.
func CautionsOn(s array.Site, choices []array.Choice, own ...string) []string {
	return append(own, study.Cautions(s, choices, false)...)
}
