package fleet

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/sim/engine"
)

// ArrayErrors are the arrays of which nothing can be simulated, and why.
type ArrayErrors []ArrayError

// ArrayError is one of them.
type ArrayError struct {
	Name string
	Err  error
}

// mostErrors is how many arrays an error names.
const mostErrors = 50

// Error returns a line for each array, of very many for the first 50 and one that says how
// many more there are.
func (e ArrayErrors) Error() string {
	var lines []string
	for i := range e[:min(len(e), mostErrors)] {
		lines = append(lines, fmt.Sprintf("%s: %v", e[i].Name, e[i].Err))
	}
	if more := len(e) - mostErrors; more > 0 {
		lines = append(lines, fmt.Sprintf("and %d arrays more", more))
	}
	return strings.Join(lines, "\n")
}

// The share of the work that each part is taken to be, for progress.
const (
	firstShare = 0.6
	yearShare  = 0.25
)

// Ask answers for a fleet. The error is of type [ArrayErrors], or that of the context.
func Ask(ctx context.Context, q Request) (Result, error) {
	r := Result{Name: q.Name, Seed: q.Options.Seed, Accuracy: q.Options.Accuracy, Notes: q.Notes}
	sites := map[string]bool{}
	for i := range q.Arrays {
		sites[q.Arrays[i].SiteAt] = true
	}
	r.Sites = len(sites)
	r.Notes = append(slices.Clip(r.Notes), logNotes(ctx, q.Arrays)...)
	t := triage{q: q, workers: engine.Workers(q.Options.Workers)}
	t.q.Options.Progress = engine.PartOf(q.Options.Progress, 0, firstShare)
	if err := t.first(ctx); err != nil {
		return r, err
	}
	t.q.Options.Progress = engine.PartOf(q.Options.Progress, firstShare, 1-yearShare)
	if err := t.sharpen(ctx); err != nil {
		return r, err
	}
	years := year{q: q, standings: t.standings, workers: t.workers}
	years.q.Options.Progress = engine.PartOf(q.Options.Progress, 1-yearShare, 1)
	if err := years.run(ctx); err != nil {
		return r, err
	}
	r.Year, r.Models, r.Replicates = years.all(), years.models(), years.replicates
	for i := range t.standings {
		t.standings[i].Failures = years.ofArray(i)
	}
	r.Losses, r.OfDegraded = t.losses(), t.lossesOf(func(s *Standing) bool { return len(s.AreDown) > 0 })
	for _, o := range t.order {
		s := t.standings[o]
		r.Arrays = append(r.Arrays, s)
		switch {
		case s.Lost():
			r.Lost++
		case len(s.AreDown) > 0:
			r.Degraded++
		default:
			r.Whole++
		}
	}
	for _, c := range t.cases {
		r.Lives += c.lives
	}
	return r, nil
}

// owed returns the drives that an array wants now: for those that wait for one, and for
// hot spares that were taken.
func owed(a *Array) int {
	return a.State.Waiting() + max(0, a.Choice.HotSpares-a.State.Spares)
}

// cameraDays returns the footage that the loss of one set destroys.
func cameraDays(site array.Site, c array.Choice) float64 {
	z, err := site.Size(c)
	if err != nil || len(site.Cameras) == 0 {
		return math.NaN()
	}
	return z.CameraDays / float64(z.Shape.Sets)
}

// asArrayErrors returns the errors of arrays, nil where there are none: that of the
// context alone where that is done.
func asArrayErrors(ctx context.Context, arrays []Array, errs []error) error {
	if err := ctx.Err(); err != nil {
		return err
	}
	var all ArrayErrors
	for i, err := range errs {
		if busy, ok := errors.AsType[*engine.BusyError](err); ok {
			all = append(all, ArrayError{arrays[i].Name, busy})
		} else if err != nil {
			return fmt.Errorf("%s: %w", arrays[i].Name, err)
		}
	}
	if len(all) > 0 {
		return all
	}
	return nil
}
