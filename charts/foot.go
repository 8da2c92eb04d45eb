package charts

import "arrayodds/array"

// foot is what stands at the end of a page.
type foot struct {
	Assumptions []Assumption
	Defaults    bool // some were left to the program
	Cautions    []string
}

func footOf(cautions []string, assumptions []Assumption) foot {
	f := foot{Cautions: cautions}
	for _, a := range assumptions {
		f.Assumptions = append(f.Assumptions, Assumption{oneLine(a.Path), oneLine(a.Text), a.Default})
		f.Defaults = f.Defaults || a.Default
	}
	return f
}

// cautionsOn is the cautions of the report on choices of a site, behind some of a
// page's own.
func cautionsOn(site array.Site, choices []array.Choice, first ...string) []string {
	r := Report{Site: site}
	for _, c := range choices {
		r.Outcomes = append(r.Outcomes, Outcome{Choice: c})
	}
	return append(first, r.Cautions()...)
}
