package print

import (
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/sim/figure"
	"arrayodds/sim/predictive"
)

// updates returns what the log of a site made of the drives of some choices, or of all where
// none is given, and what of it is unlikely; none where there is no log. Each is a paragraph
// of that width.
func updates(columns int, s array.Site, choices ...array.Choice) (parts []string) {
	counts := func(drive string) bool {
		return len(choices) == 0 || slices.ContainsFunc(choices, func(c array.Choice) bool { return c.Drive.Label == drive })
	}
	r := predictive.Look(s)
	for _, u := range r.Updates {
		if counts(u.Drive) {
			parts = append(parts, paragraphIn(columns, "%s", plain(u.Words)))
		}
	}
	for _, c := range r.Checks {
		if counts(c.Drive) && !c.Likely {
			parts = append(parts, paragraphIn(columns, "! %s: %s %s", plain(c.Drive), plain(c.Said), plain(c.Doubt)))
		}
	}
	return parts
}

// logged returns what the site's log makes of its assumptions, none where it has none.
func logged(s array.Site) (parts []string) {
	r := predictive.Look(s)
	for _, u := range r.Updates {
		parts = append(parts, paragraph("%s", plain(u.Words)))
	}
	var rows [][]string
	for _, c := range r.Checks {
		verdict := "likely"
		if !c.Likely {
			verdict = "UNLIKELY"
		}
		rows = append(rows, []string{plain(c.Drive), string(c.Kind), verdict, plain(strings.TrimSpace(c.Said + " " + c.Doubt))})
	}
	if len(rows) == 0 {
		return parts
	}
	parts = append(parts, layOut([]column{{"drive", 14}, {"of its\nlog", 0}, {"is", 0}, {"what was seen, and what to doubt", 60}}, rows))
	if len(rows) > 1 {
		parts = append(parts, paragraph("Unlikely is what comes in fewer than %s of such looks, so that of %d looks together one in twenty would have one called so by chance alone.", typed(figure.Chance(r.Below)), len(rows)))
	}
	return parts
}
