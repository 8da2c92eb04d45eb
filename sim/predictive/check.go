package predictive

import (
	"fmt"
	"strings"

	"arrayodds/array"
	"arrayodds/array/evidence"
	"arrayodds/array/unit"
	"arrayodds/sim/figure"
)

// Kind is what a look looks at.
type Kind string

// The kinds of look.
const (
	Count    Kind = "count"
	Ages     Kind = "ages"
	Clusters Kind = "clusters"
)

// Check is one look at the log of a drive model.
type Check struct {
	Drive  string // its label
	Kind   Kind
	P      float64 // how rare what was seen is under the assumptions, 0 to 1
	Likely bool    // it is not rarer than [Report].Below
	Said   string  // what was seen, and how rare it is: a sentence
	Doubt  string  // which assumption to doubt, and what key to change; empty where it is likely
}

// Update is what a log made of the failure rate of a drive model.
type Update struct {
	Drive string
	Log   *array.Log
	Words string // a sentence
}

// Report is what the logs of a site say.
type Report struct {
	Updates []Update
	Checks  []Check
	Below   float64 // a look that is rarer is called unlikely
}

// together is how often all looks together call something unlikely, the assumptions being
// right.
const together = 0.05

// Look looks at the logs of a site; there are no updates where it has none.
func Look(s array.Site) (r Report) {
	for _, d := range s.Drives {
		if d.Log == nil {
			continue
		}
		r.Updates = append(r.Updates, Update{d.Label, d.Log, "The failure rate of " + unit.Quote(d.Label) + " is " + evidence.Words(d.Log) + "."})
		r.Checks = append(r.Checks, looks(d)...)
	}
	r.Below = together / float64(max(1, len(r.Checks)))
	for i := range r.Checks {
		c := &r.Checks[i]
		if c.Likely = c.P >= r.Below; c.Likely {
			c.Said, c.Doubt = c.Said+" That is likely under the assumptions.", ""
			if c.P < together {
				c.Said += fmt.Sprintf(" By itself it is rare, but with %d looks one as rare is no ground for doubt.", len(r.Checks))
			}
		} else {
			c.Said += " That is unlikely under the assumptions."
		}
	}
	return r
}

// Sentences returns all that a report says, for where there is no table of it; none where a
// site has no log.
func (r Report) Sentences() (all []string) {
	for _, u := range r.Updates {
		all = append(all, u.Words)
		for _, c := range r.Checks {
			if c.Drive == u.Drive {
				all = append(all, strings.TrimSpace(c.Said+" "+c.Doubt))
			}
		}
	}
	return all
}

// looks returns the looks at a log, without their verdicts.
func looks(d array.Drive) (all []Check) {
	l := d.Log
	key := func(name string) string { return "drives." + d.Label + "." + name }
	if l.Expected > 0 {
		law := counted(l, d.BatchVariance)
		low, high := law.Range()
		c := Check{Drive: d.Label, Kind: Count, P: law.rare(l.Failures)}
		tail, how := law.AtLeast(l.Failures), "so many or more"
		c.Doubt = fmt.Sprintf("More drives failed than was assumed. Doubt %s first: a higher rate, or a range of it that reaches higher; then what is hard on drives here, heat or workload: %s.", key("life"), key("hazard_multiplier"))
		if l.Failures < law.Mean() {
			tail, how = law.AtMost(l.Failures), "so few or fewer"
			c.Doubt = fmt.Sprintf("Fewer drives failed than was assumed. Doubt first whether the log has every failure; then %s: a lower rate, or a range of it that reaches lower.", key("life"))
		}
		c.Said = fmt.Sprintf("%s, where the assumptions without the log expect %s (95 %%: %s to %s): %s come in %s of such logs.",
			evidence.Told(l.Failures, l.DriveDays), unit.Digits(law.Mean(), 2), unit.Digits(low, 15), unit.Digits(high, 15), how, chance(tail))
		all = append(all, c)
	}
	if at := rescaled(l.Fleets, l.Stated); len(at) >= fewestAges {
		p, late := laplace(at, doubtOfAges(l.Fleets, l.Stated))
		c := Check{Drive: d.Label, Kind: Ages, P: p}
		when := "earlier"
		c.Doubt = fmt.Sprintf("Drives failed younger than %s says. Doubt how the rate changes with age: a shape below that, or afr_by_year with a higher first year; fit makes a law of the record.", key("life"))
		if late {
			when = "later"
			c.Doubt = fmt.Sprintf("Drives failed older than %s says. Doubt how the rate changes with age: a shape above that, or afr_by_year that rises; fit makes a law of the record.", key("life"))
		}
		c.Said = fmt.Sprintf("The ages of %d failures lie %s than the law has them in the mean, by as much as in %s of such records.", len(at), when, chance(p))
		all = append(all, c)
	}
	if most, failures, p, ok := clusters(l.Fleets, l.Stated); ok && len(l.Fleets) > 0 {
		all = append(all, Check{Drive: d.Label, Kind: Clusters, P: p,
			Said:  fmt.Sprintf("Of %d failures %d came within %d days, as in %s of records in which each comes by itself.", failures, most, window, chance(p)),
			Doubt: fmt.Sprintf("Drives failed together. Doubt that each fails by itself: hazards.common_cause for what strikes many at once, %s for a bad batch.", key("batch_variance"))})
	}
	return all
}

// chance returns a chance in words: "18 %", "1 in 300 000".
func chance(p float64) string {
	if p >= 1e-4 {
		return unit.FormatPercent(p, 2)
	}
	return figure.Chance(p)
}
