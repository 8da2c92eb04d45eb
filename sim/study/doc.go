// Package study asks many things of one site: what comes of an input at many
// values ([Vary]), which input matters most ([Rank]), and what a learner can be
// asked ([Teach]). It reads the site file again with each value in its place,
// simulates what comes of it from the same random streams, and puts the answers
// together for the pages.
package study

import (
	"errors"
	"fmt"
	"runtime"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/unit"

	"golang.org/x/sync/errgroup"
)

// Bounds of what is asked at a time.
const (
	MostPoints = 20_000 // choices × values
	MostValues = 2_500  // pairs of values of two inputs
)

// LimitError is more than is simulated at a time.
type LimitError struct{ Found, Right string }

func (e *LimitError) Error() string {
	return fmt.Sprintf("found %s; right would be %s", e.Found, e.Right)
}

// checkPoints refuses more points than are simulated at a time.
func checkPoints(choices, each int) error {
	if n := choices * each; n > MostPoints {
		return &LimitError{fmt.Sprintf("%d choices at %d settings each, %d to simulate", choices, each, n), fmt.Sprintf("at most %d: fewer values, or fewer choices by --choice", MostPoints)}
	}
	return nil
}

// readings reads the site file once for each group of settings. Where some cannot
// be read the error is of type [site.Errors] and lists what is wrong, each thing
// once.
func readings(from *axis.Source, settings [][]axis.Setting) ([]*site.File, error) {
	files := make([]*site.File, len(settings))
	faults := make([]error, len(settings))
	var g errgroup.Group
	g.SetLimit(runtime.GOMAXPROCS(0))
	const together = 32
	for first := 0; first < len(settings); first += together {
		g.Go(func() error {
			for i := first; i < min(first+together, len(settings)); i++ {
				files[i], faults[i] = from.With(settings[i]...)
			}
			return nil
		})
	}
	_ = g.Wait() // the faults have their places
	var all site.Errors
	for _, err := range faults {
		var errs site.Errors
		switch {
		case err == nil:
		case errors.As(err, &errs):
			for _, e := range errs {
				if len(all) < mostFaults && !slices.Contains(all, e) {
					all = append(all, e)
				}
			}
		default:
			return nil, err
		}
	}
	if all != nil {
		return nil, all
	}
	return files, nil
}

// mostFaults is how many errors are told: those of neighbouring values are alike.
const mostFaults = 20

// assumptionsOn is all that a file says or leaves out, without what is of other choices and of drives that this
// one does not use.
func assumptionsOn(f *site.File, c array.Choice) []site.Assumption {
	of := func(path, kind, label string) bool {
		return strings.HasPrefix(path, kind+"."+label+".") || strings.HasPrefix(path, kind+"."+unit.Quote(label)+".")
	}
	var out []site.Assumption
	for _, a := range f.Assumptions {
		switch {
		case strings.HasPrefix(a.Path, "choices.") && !of(a.Path, "choices", c.Label):
		case strings.HasPrefix(a.Path, "drives.") && !of(a.Path, "drives", c.Drive.Label):
		default:
			out = append(out, a)
		}
	}
	return out
}
