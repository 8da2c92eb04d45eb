package record

import (
	"fmt"

	"arrayodds/array"
)

var ages = form{name: "one row a drive, ages", needed: 2,
	columns: []string{"hours", "failed", "entered", "label", "model"},
	reader:  func(o Options) taker { return &agesReader{until: !o.Until.IsZero()} }}

const (
	ageHours = iota
	ageFailed
	ageEntered
	ageLabel
	ageModel
)

// mostHours is the greatest age that is taken for one: 50 years.
const mostHours = 438_000

type agesReader struct {
	fleets
	until bool
}

func (r *agesReader) row(s *sheet) {
	var d array.Observed
	var ok, told bool
	if d.Hours, ok = s.number(s.cells[ageHours]); !ok || d.Hours < leastHours || d.Hours > mostHours {
		s.wrong(ageHours, "hours, at least 0.001 and at most 438000 (50 years)")
		ok = false
	}
	if d.Failed, told = truth(s.cells[ageFailed]); !told {
		s.wrong(ageFailed, truthRight)
		ok = false
	}
	if cell := s.cells[ageEntered]; len(cell) > 0 {
		entered, read := s.number(cell)
		switch {
		case !read:
			s.wrong(ageEntered, "hours, 0 or more, or blank")
			ok = false
		case ok && entered > d.Hours-leastHours:
			s.wrong(ageEntered, fmt.Sprintf("an age below that of hours, %s", s.cells[ageHours]))
			ok = false
		}
		d.Entered = entered
	}
	if f := r.labelled(s, ageLabel, ageModel); f != nil && ok && r.room(s) {
		f.Drives = append(f.Drives, d)
	}
}

// leastHours is the shortest that a drive can be watched: a few seconds.
const leastHours = 0.001

const truthRight = "yes or no, or 1 or 0"

func (r *agesReader) record(errs *Errors) Record {
	if r.until {
		errs.add(undated)
	}
	return Record{Fleets: r.list}
}

var dates = form{name: "one row a drive, dates", needed: 3,
	columns: []string{"installed", "removed", "failed", "observed_from", "label", "model"},
	reader:  func(o Options) taker { return &datesReader{until: untilOf(o), unknown: o.UntilUnknown} }}

const (
	dateInstalled = iota
	dateRemoved
	dateFailed
	dateFrom
	dateLabel
	dateModel
)

type datesReader struct {
	fleets
	until   int32 // never where not given
	unknown bool  // it is given and cannot be read
	running Error // the first drive that needs --until and has none
	more    int
	later   map[string]int // by label, drives not watched by then
}

// never is a day after all others.
const never = int32(1 << 30)

func untilOf(o Options) int32 {
	if o.Until.IsZero() {
		return never
	}
	return dayOf(o.Until)
}

// sameDay is how long a drive ran, in hours, that was removed on the day it was
// installed.
const sameDay = 12

func (r *datesReader) row(s *sheet) {
	ok := true
	read := func(place int) int32 {
		d, right := day(s.cells[place])
		if !right {
			s.wrong(place, dateRight)
			ok = false
		}
		return d
	}
	installed, from, end := read(dateInstalled), int32(0), r.until
	failed, told := truth(s.cells[dateFailed])
	if !told {
		s.wrong(dateFailed, truthRight)
		ok = false
	}
	removed := never
	if len(s.cells[dateRemoved]) > 0 {
		removed = read(dateRemoved)
		end = min(end, removed)
	} else if failed {
		s.wrong(dateRemoved, "the day of the failure, as failed says yes")
		ok = false
	} else if r.until == never {
		if !r.unknown {
			r.needsUntil(s)
		}
		ok = false
	}
	if from = installed; len(s.cells[dateFrom]) > 0 {
		from = max(read(dateFrom), installed)
	}
	switch {
	case !ok:
	case removed < installed:
		s.wrong(dateRemoved, fmt.Sprintf("a day not before that of installed, %s", s.cells[dateInstalled]))
		ok = false
	case removed < from || removed == from && from > installed:
		s.wrong(dateFrom, fmt.Sprintf("a day before that of removed, %s", s.cells[dateRemoved]))
		ok = false
	}
	f := r.labelled(s, dateLabel, dateModel)
	if f == nil || !ok {
		return
	}
	if end < installed || end <= from && r.until < removed {
		if r.later == nil {
			r.later = map[string]int{}
		}
		r.later[f.Label]++
		return
	}
	d := array.Observed{Entered: 24 * float64(from-installed), Hours: max(24*float64(end-installed), sameDay), Failed: failed && removed <= end}
	if d.Hours > mostHours {
		s.wrong(dateInstalled, "a day at most 50 years before the last")
		return
	}
	if r.room(s) {
		f.Drives = append(f.Drives, d)
	}
}

func (r *datesReader) needsUntil(s *sheet) {
	if r.more == 0 {
		r.running = Error{File: s.name, Line: s.line, Column: s.form.columns[dateRemoved], Right: "a date, or the option --until with the last day of the record"}
	}
	r.more++
}

func (r *datesReader) record(errs *Errors) Record {
	if r.more > 0 {
		r.running.Found = "nothing, here and in so many rows in all: " + fmt.Sprint(r.more)
		errs.add(r.running)
	}
	var out Record
	for _, f := range r.list {
		if n := r.later[f.Label]; n > 0 {
			f.Notes = append(f.Notes, fmt.Sprintf("Left out, as they came after the day of --until: %d drives.", n))
		}
		if len(f.Drives) > 0 {
			out.Fleets = append(out.Fleets, f)
		}
	}
	return out
}
