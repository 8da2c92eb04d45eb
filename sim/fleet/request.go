package fleet

import (
	"fmt"

	"arrayodds/array/label"
	"arrayodds/array/state/folder"
	"arrayodds/sim/engine"
	"arrayodds/sim/figure"
)

// How a fleet is simulated that nobody says anything else of: the same as a site file
// without [run], but for the budget, which is that of one array of many.
const (
	DefaultSeed      = 1
	DefaultAccuracy  = 0.05
	DefaultMaxTrials = 4096
)

// Asked returns what is asked of the arrays of a folder.
func Asked(name string, f *folder.Folder, opt engine.Options) Request {
	q := Request{Name: name, Options: opt}
	for _, a := range f.Arrays {
		q.Arrays = append(q.Arrays, Array{
			Name: a.Name, SiteAt: a.SiteAt, Site: a.Site.Site, Choice: a.Site.Site.Choices[a.Choice], State: a.State,
		})
	}
	if n := len(f.Links); n > 0 {
		which := "which leads"
		if n > 1 {
			which = "the first of which leads"
		}
		q.Notes = append(q.Notes, fmt.Sprintf("%s not followed, %s to a folder or nowhere in this one: %s.",
			figure.Capital(figure.Count(n, "link was", "links were")), which, label.OneLine(f.Links[0])))
	}
	return q
}
