package sizing

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/law"
)

// Workload returns what a drive of a fitting reads and writes in a year. Scrubs come as
// often as the site's care has it, and drives fail as they do on average over the service
// life, each replaced drive being as old as the others.
func (z Suggestions) Workload(f array.Fitting) array.Workload {
	return z.Site.Workload(f.Choice, f.Sizing.Shape, z.ScrubHours(), z.failuresPerYear(f.Drive))
}

// ScrubHours returns the mean time between scrubs in hours, 0 where nothing scrubs.
func (z Suggestions) ScrubHours() float64 {
	if z.Care.Scrub == nil {
		return 0
	}
	l, err := law.OfTime(z.Care.Scrub)
	if err != nil {
		return 0 // scrubs are in no open hours
	}
	return l.Mean()
}

func (z Suggestions) failuresPerYear(d array.Drive) float64 {
	life, uncertain, err := law.OfLife(d.Life, d.HazardMultiplier)
	if err != nil {
		return 0 // every life that a site file takes has its law
	}
	failures := life.Cumulative(z.Site.ServiceLife) / (z.Site.ServiceLife / unit.HoursPerYear)
	if uncertain > 0 {
		failures *= uncertain // the mean of the Gamma law of the rate
	}
	return failures
}

// Rated returns the share of the rated workload of its drive that a fitting takes; NaN
// where no rating is stated.
func (z Suggestions) Rated(f array.Fitting) float64 {
	if f.Drive.Rated == 0 || !f.Found {
		return math.NaN()
	}
	return z.Workload(f).Total() / f.Drive.Rated
}
