package now

import (
	"context"

	"arrayodds/array/site"
	"arrayodds/array/state"
	"arrayodds/sim/engine"
)

// Asked returns what is asked of an array of a site in the state that a state file gives:
// what that file says and leaves out goes before the site's assumptions.
func Asked(f *site.File, read *state.File, opt engine.Options) Request {
	q := Request{Site: f.Site, Choice: f.Site.Choices[read.Choice], State: read.State, Options: opt}
	for _, n := range read.Notes {
		q.Assumptions = append(q.Assumptions, site.Assumption{Path: "state." + n.Path, Text: n.Text, Default: n.Default})
	}
	q.Assumptions = append(q.Assumptions, f.Assumptions...)
	return q
}

// Practice returns what is asked of a choice of a site, by its place, in a state that is
// drawn from its simulated lives. The error is that of [Drill].
func Practice(ctx context.Context, f *site.File, choice int, opt engine.Options) (Request, error) {
	q := Request{Site: f.Site, Choice: f.Site.Choices[choice], Options: opt, Assumptions: f.Assumptions}
	var err error
	q.State, err = Drill(ctx, q.Site, q.Choice, opt)
	return q, err
}
