package fleet

import (
	"context"
	"fmt"
	"slices"
	"strings"

	"arrayodds/array/label"
	"arrayodds/sim/figure"
	"arrayodds/sim/predictive"
)

const (
	mostLogs    = 20 // site files of which it is told what their logs say
	mostUpdates = 3  // drive models of each
)

// logNotes says of each site file with a log what that makes of the drives of its arrays, and
// what of it is unlikely; of very many for the first 20, and how many more there are.
func logNotes(ctx context.Context, arrays []Array) (notes []string) {
	var at []string
	first := map[string]*Array{}
	used := map[string]map[string]bool{}
	for i := range arrays {
		a := &arrays[i]
		if a.Choice.Drive.Log == nil {
			continue
		}
		if first[a.SiteAt] == nil {
			first[a.SiteAt], used[a.SiteAt] = a, map[string]bool{}
			at = append(at, a.SiteAt)
		}
		used[a.SiteAt][a.Choice.Drive.Label] = true
	}
	slices.Sort(at)
	for _, file := range at[:min(len(at), mostLogs)] {
		if ctx.Err() != nil {
			return notes
		}
		r := predictive.Look(first[file].Site)
		notes = append(notes, label.OneLine(file)+": "+ofLog(r, used[file]))
	}
	if more := len(at) - mostLogs; more > 0 {
		notes = append(notes, fmt.Sprintf("The failure rates of %s more are updated by logs, too: arrayodds check says of each what its log makes of them, and what of it is unlikely.", figure.Count(more, "site file", "site files")))
	}
	return notes
}

// ofLog says what a report says of these drives: their rates, and what is unlikely.
func ofLog(r predictive.Report, used map[string]bool) string {
	var says []string
	updates := 0
	for _, u := range r.Updates {
		if !used[u.Drive] {
			continue
		}
		if updates++; updates <= mostUpdates {
			says = append(says, u.Words)
		}
	}
	if more := updates - mostUpdates; more > 0 {
		says = append(says, fmt.Sprintf("Those of %s are updated, too.", figure.Count(more, "more model", "more models")))
	}
	for _, c := range r.Checks {
		if used[c.Drive] && !c.Likely {
			says = append(says, strings.TrimSpace(fmt.Sprintf("Of the log of %s: %s %s", label.OneLine(c.Drive), c.Said, c.Doubt)))
		}
	}
	return strings.Join(says, " ")
}
