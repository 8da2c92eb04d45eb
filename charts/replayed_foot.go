package charts

import "arrayodds/array"

// foot is what stands at the end of a page on one choice.
type foot struct {
	Assumptions []Assumption
	Defaults    bool // some were left to the program
	Cautions    []string
}

// footOf is the foot of a page on a choice; first are cautions of the page's own.
func footOf(site array.Site, choice array.Choice, assumptions []Assumption, first ...string) foot {
	r := Report{Site: site, Outcomes: []Outcome{{Choice: choice}}}
	f := foot{Cautions: append(first, r.Cautions()...)}
	for _, a := range assumptions {
		f.Assumptions = append(f.Assumptions, Assumption{oneLine(a.Path), oneLine(a.Text), a.Default})
		f.Defaults = f.Defaults || a.Default
	}
	return f
}
