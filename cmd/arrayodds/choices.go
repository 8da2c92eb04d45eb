package main

import (
	"slices"
	"strings"

	"arrayodds/array"

	"github.com/urfave/cli/v2"
)

// choicesFlag returns the flag that [arguments.selectedChoices] reads.
func choicesFlag() cli.Flag {
	return &cli.StringSliceFlag{Name: "choice", Usage: "only the choice of this `LABEL`; may be given several times", DefaultText: "all"}
}

// selectedChoices returns the places of the choices that --choice names, of all
// of them where it is not given.
func (a *arguments) selectedChoices(all []array.Choice) (places []int) {
	if !a.IsSet("choice") {
		for i := range all {
			places = append(places, i)
		}
		return places
	}
	for _, label := range a.StringSlice("choice") {
		if place := a.choiceLabelled("choice", label, all); place >= 0 {
			places = insertSorted(places, place)
		}
	}
	return places
}

// choiceLabelled returns the place of the choice whose label a flag gives, −1
// where there is none. Where there are no choices, since the site file could not
// be read, nothing is noted.
func (a *arguments) choiceLabelled(flag, label string, all []array.Choice) int {
	labels := labelsOf(all)
	if i := slices.Index(labels, strings.TrimSpace(label)); i >= 0 || len(all) == 0 {
		return i
	}
	a.wrong("--%s: no choice is called %q; right would be one of %s%s", flag, label, strings.Join(quoted(labels), ", "), didYouMean(label, labels, ""))
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
