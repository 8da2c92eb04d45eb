package charts

import (
	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/site"
	"arrayodds/sim/study"
)

// foot is what stands at the end of a page.
type foot struct {
	Assumptions []site.Assumption
	Defaults    bool // some were left to the program
	Cautions    []string
}

func footOf(cautions []string, assumptions []site.Assumption) foot {
	f := foot{Cautions: cautions}
	for _, a := range assumptions {
		f.Assumptions = append(f.Assumptions, site.Assumption{Path: label.OneLine(a.Path), Text: label.OneLine(a.Text), Default: a.Default})
		f.Defaults = f.Defaults || a.Default
	}
	return f
}

// cautionsOn returns the cautions on choices of a site, behind a page's own.
func cautionsOn(s array.Site, choices []array.Choice, own ...string) []string {
	return append(own, study.Cautions(s, choices, false)...)
}
