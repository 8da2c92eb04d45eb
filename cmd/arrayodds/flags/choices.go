package flags

import (
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/nearest"
	"arrayodds/array/site"
)

// Choices returns the places of the choices that --choice names, of all of them where it
// is not given.
func (r Reader) Choices(f *site.File) (places []int) {
	all := fileOf(f).Site.Choices
	if !r.IsSet("choice") {
		for i := range all {
			places = append(places, i)
		}
		return places
	}
	for _, label := range r.StringSlice("choice") {
		if place := r.labelled("choice", label, all); place >= 0 {
			places = insertSorted(places, place)
		}
	}
	return places
}

// OneChoice returns the place of the choice that --choice names, or of the only one.
func (r Reader) OneChoice(f *site.File) int {
	all := fileOf(f).Site.Choices
	if r.IsSet("choice") {
		return r.labelled("choice", r.String("choice"), all)
	}
	if len(all) > 1 {
		r.Wrong("which of the %d choices? Give one as --choice %s", len(all), strings.Join(quoted(labelsOf(all)), ", or "))
	}
	return 0
}

// ChoiceToTeach returns the place of the choice that --choice names; without it that of
// the first that has redundancy and holds the footage, else the first with redundancy,
// else the first.
func (r Reader) ChoiceToTeach(f *site.File) int {
	s := fileOf(f).Site
	if r.IsSet("choice") {
		return r.labelled("choice", r.String("choice"), s.Choices)
	}
	best, rank := 0, 0
	for i, c := range s.Choices {
		z, err := s.Size(c)
		if err != nil || !z.Shape.Rebuilds() {
			continue
		}
		r := 1
		if z.Meets {
			r = 2
		}
		if r > rank {
			best, rank = i, r
		}
	}
	return best
}

// labelled returns the place of the choice whose label a flag gives, −1 where there is
// none. Where there are no choices, since the site file could not be read, nothing is
// noted.
func (r Reader) labelled(flag, label string, all []array.Choice) int {
	labels := labelsOf(all)
	if i := slices.Index(labels, strings.TrimSpace(label)); i >= 0 || len(all) == 0 {
		return i
	}
	r.Wrong("--%s: no choice is called %q; right would be one of %s%s", flag, label, strings.Join(quoted(labels), ", "), nearest.DidYouMean(label, labels, ""))
	return -1
}

func labelsOf(all []array.Choice) []string {
	labels := make([]string, len(all))
	for i, c := range all {
		labels[i] = c.Label
	}
	return labels
}

// quoted returns labels in quotes, as many as a line has room for.
func quoted(labels []string) []string {
	const most = 12
	var out []string
	for i, l := range labels {
		if i == most {
			return append(out, "…")
		}
		out = append(out, `"`+l+`"`)
	}
	return out
}

// insertSorted returns places with one more in its order, once.
func insertSorted(places []int, place int) []int {
	at, found := slices.BinarySearch(places, place)
	if found {
		return places
	}
	return slices.Insert(slices.Clone(places), at, place)
}
