package flags

import (
	"slices"
	"strings"
	"time"

	"arrayodds/array"
	"arrayodds/array/nearest"
	"arrayodds/array/record"
	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/sim/choose"
	"arrayodds/sim/teach"
	"arrayodds/sim/trace"
)

// Lives is how many lives are shown where --lives says nothing.
const Lives = 5

// Lives returns the value of --lives.
func (r Reader) Lives() int { return WholeNumber(r, "lives", 1, trace.MaxLives, Lives) }

// Questions returns the names of --question.
func (r Reader) Questions() []string {
	var all []string
	for _, name := range r.StringSlice("question") {
		switch {
		case !slices.Contains(teach.Keys, name):
			r.Wrong("--question: found %s%s; right would be %s", unit.Quote(name), nearest.DidYouMean(name, teach.Keys, ""), strings.Join(teach.Keys, ", "))
		case slices.Contains(all, name):
			r.Wrong("--question %s is given more than once; right would be once", name)
		}
		all = append(all, name)
	}
	return all
}

// Bays returns the value of --bays; 0 where it is not given.
func (r Reader) Bays() int { return WholeNumber(r, "bays", 1, array.MaxDrives, 0) }

// SparesBeside returns the value of --spares of size: so many beside the drives.
func (r Reader) SparesBeside() int { return WholeNumber(r, "spares", 0, 100, 0) }

// MostSpares returns the value of --spares of choose: of a design at most.
func (r Reader) MostSpares() int { return WholeNumber(r, "spares", 0, 10, 1) }

// CheckSizing notes why nothing can be sized for a file in so many bays. name is what the
// site file is called.
func (r Reader) CheckSizing(f *site.File, name string, bays int) {
	if f == nil {
		return
	}
	if len(f.Site.Cameras) == 0 {
		r.Wrong("%s has no cameras, so there is nothing to size for; give them under [[cameras]], or a schedule", name)
	}
	if f.Recorder != nil && f.Recorder.Bays > 0 && bays > f.Recorder.Bays {
		r.Wrong("--bays %d: the recorder of %s has %d; change its bays to look further", bays, name, f.Recorder.Bays)
	}
}

// CheckGoal notes that a file has nothing to choose by. name is what it is called.
func (r Reader) CheckGoal(f *site.File, name string) {
	if f != nil && f.Site.Goal == nil {
		r.Wrong("%s: %v", name, choose.NoGoalError{})
	}
}

// Until returns the day of --until, the zero time where it is not given; false where it
// cannot be read.
func (r Reader) Until() (day time.Time, ok bool) {
	text := r.String("until")
	if !r.IsSet("until") {
		return time.Time{}, true
	}
	if day, ok = record.Date(text); !ok {
		r.Wrong("--until: found %q; right would be a date such as 2025-09-30, of the years 1980 to 2100", text)
		return time.Time{}, false
	}
	return day, true
}
