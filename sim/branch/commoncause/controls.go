package commoncause

import (
	"arrayodds/array/elementary"
	"arrayodds/sim/law"
	"arrayodds/sim/model"
)

// Comes notes for the controls of a trial's years that an event, which comes at a rate per
// hour and had that chance between from and to, comes at a time between them on a line of
// the life's main line of weight w.
func Comes(tr *model.Trial, rate, from, to, at, w, chance float64) {
	first, last := tr.Year(from), tr.Year(to)
	if first == last {
		return // it comes in that year for certain
	}
	falls := tr.Year(at)
	start := from
	for year := first; year <= last; year++ {
		end := to
		if year < last {
			end = model.YearEnd(year)
		}
		x := -elementary.Exp(-rate*(start-from)) * law.Happens(rate*(end-start))
		if year == falls {
			x += chance
		}
		tr.InYear(year, model.YearEvents, w*x)
		start = end
	}
}
