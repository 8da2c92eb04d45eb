package study

import (
	"errors"
	"runtime"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/unit"

	"golang.org/x/sync/errgroup"
)

// readings reads the site file once for each group of settings. If some cannot be
// read the error is of type [site.Errors] and lists what is wrong, each thing once.
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

// mostFaults is how many errors are listed: those of neighbouring values are alike.
const mostFaults = 20

// AssumptionsOn returns the assumptions of a file without those about other choices
// and about drives that this choice does not use.
func AssumptionsOn(f *site.File, c array.Choice) []site.Assumption {
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
