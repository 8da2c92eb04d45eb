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

// NewFooter returns the end of a page from what was assumed and what to beware of.
func NewFooter(cautions []string, assumptions []site.Assumption) Footer {
	f := Footer{Cautions: cautions}
	for _, a := range assumptions {
		f.Assumptions = append(f.Assumptions, site.Assumption{Path: label.OneLine(a.Path), Text: label.OneLine(a.Text), Default: a.Default})
		f.Defaults = f.Defaults || a.Default
	}
	return f
}

// Cautions returns a page's own cautions and after them those on choices of a site.
func Cautions(s array.Site, choices []array.Choice, own ...string) []string {
	return append(own, study.Cautions(s, choices, false)...)
}
