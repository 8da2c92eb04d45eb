package hazard

import "arrayodds/sim/model"

// Passes notes for the controls of a trial that a life's main line, of weight w, went through
// the hazard of its original drives in whole groups: scale × the cumulative hazard of one
// drive from one value to another, at the end of which one of them failed or none did. What
// comes after a loss has no part in when the first one was, so years do not count it.
func (l *Life) Passes(tr *model.Trial, w, scale, from, to float64, fails, lost bool) {
	through, late := -scale*(to-from), -scale*(to-from)*(to+from)/2
	if fails {
		through++
		late += to
	}
	tr.Control(model.Arrivals, w*through)
	tr.Control(model.LateArrivals, w*late/l.Worn)
	if lost {
		return
	}
	for year, end := range l.years {
		if end <= from {
			continue
		}
		through := -scale * (min(to, end) - from)
		if fails && to <= end {
			through++
		}
		tr.InYear(year, model.YearArrivals, w*through)
		if to <= end {
			break
		}
		from = end
	}
}
