package model

import (
	"slices"

	"arrayodds/array"
	"arrayodds/sim/law"
)

// A Builder makes the systems of choices that are simulated together. The mean of
// a wait in open hours, which takes some milliseconds, it works out once for all
// choices with the same wait. The zero Builder is ready to use; it must not be
// used by two goroutines at once.
type Builder struct {
	open map[float64][]Wait // waits in open hours, by how many of them
}

// wait returns the law of a wait.
func (b *Builder) wait(t array.Time) (Wait, error) {
	if o, ok := t.(array.OpenHours); ok {
		return b.openHours(law.OpenHours{Within: o.Within, Week: o.Week}), nil
	}
	l, err := law.OfTime(t)
	return Wait{Law: l}, err
}

// openHours returns a wait in open hours, whose mean may be known already.
func (b *Builder) openHours(o law.OpenHours) Wait {
	for _, w := range b.open[o.Within] {
		if slices.Equal(w.Open.Week, o.Week) {
			return w
		}
	}
	if b.open == nil {
		b.open = map[float64][]Wait{}
	}
	w := Wait{Open: &o, mean: o.Mean()}
	b.open[o.Within] = append(b.open[o.Within], w)
	return w
}
