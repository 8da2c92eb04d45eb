package record

import (
	"fmt"
	"time"

	"arrayodds/array"
	"arrayodds/array/unit"
)

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
	order   order
	waiting []dated
	later   map[int]int // by fleet, drives not watched by then
}

// dated is a drive with its dates as they stand.
type dated struct {
	file                     string
	line                     int
	fleet                    int
	installed, removed, from written // removed and from may be never
	failed                   bool
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
	read := func(place int, right string) written {
		w, understood := s.date(s.cells[place])
		if !understood {
			s.wrong(place, right)
			ok = false
		} else {
			r.order.see(s, place, w)
		}
		return w
	}
	d := dated{file: s.name, line: s.line, removed: written(never), from: written(never)}
	d.installed = read(dateInstalled, dateRight)
	failed, told := truth(s.cells[dateFailed])
	if !told {
		s.wrong(dateFailed, truthRight)
		ok = false
	}
	d.failed = failed
	if len(s.cells[dateRemoved]) > 0 {
		d.removed = read(dateRemoved, dateRight+"; or nothing where the drive still runs, and --until with the last day of the record")
	} else if failed {
		s.wrong(dateRemoved, "the day of the failure, as failed says yes")
		ok = false
	} else if r.until == never {
		if !r.unknown {
			r.needsUntil(s)
		}
		ok = false
	}
	if len(s.cells[dateFrom]) > 0 {
		d.from = read(dateFrom, dateRight)
	}
	f := r.labelled(s, dateLabel, dateModel)
	if f == nil || !ok {
		return
	}
	d.fleet = r.byLabel[f.Label]
	switch {
	case !r.room(s):
	case d.installed.open() || d.removed.open() || d.from.open():
		r.waiting = append(r.waiting, d)
	case !r.take(d, true, s.errs):
		r.drives--
		s.stop = s.stop || s.errs.full()
	}
}

// take keeps a drive and reports whether it did; what is wrong with its dates is
// added to the errors.
func (r *datesReader) take(d dated, dayFirst bool, errs *Errors) bool {
	ok := true
	wrong := func(place int, w written, right string) {
		day, _ := w.day(dayFirst)
		errs.add(Error{File: d.file, Line: d.line, Column: dates.columns[place], Found: fmt.Sprintf("%q", dateText(day)), Right: right})
		ok = false
	}
	read := func(place int, w written) int32 {
		day, there := w.day(dayFirst)
		if !there {
			first, second := w.either()
			errs.add(Error{File: d.file, Line: d.line, Column: dates.columns[place], Found: fmt.Sprintf("%d as a day and %d as a month", pick(dayFirst, first, second), pick(dayFirst, second, first)), Right: dateRight})
			ok = false
		}
		return day
	}
	installed, removed := read(dateInstalled, d.installed), read(dateRemoved, d.removed)
	end, from := min(r.until, removed), installed
	if d.from != written(never) {
		from = max(read(dateFrom, d.from), installed)
	}
	switch {
	case !ok:
	case removed < installed:
		wrong(dateRemoved, d.removed, "a day not before that of installed, "+dateText(installed))
	case removed < from || removed == from && from > installed:
		wrong(dateFrom, d.from, "a day before that of removed, "+dateText(removed))
	}
	if !ok {
		return false
	}
	if end < installed || end <= from && r.until < removed {
		if r.later == nil {
			r.later = map[int]int{}
		}
		r.later[d.fleet]++
		return false
	}
	o := array.Observed{Entered: 24 * float64(from-installed), Hours: max(24*float64(end-installed), sameDay), Failed: d.failed && removed <= end}
	if o.Hours > mostHours {
		right := "a day at most 50 years before the last"
		if end == r.until {
			right = "a day at most 50 years before that of --until, " + dateText(r.until) + ", or an earlier --until"
		}
		wrong(dateInstalled, d.installed, right)
		return false
	}
	f := &r.list[d.fleet]
	f.Drives, f.Ends = append(f.Drives, o), append(f.Ends, end)
	return true
}

func pick(first bool, a, b int) int {
	if first {
		return a
	}
	return b
}

// dateText returns a day as records have it.
func dateText(day int32) string { return time.Unix(int64(day)*86400, 0).UTC().Format(time.DateOnly) }

func (r *datesReader) needsUntil(s *sheet) {
	if r.running.Line > 0 {
		r.running.More++
		return
	}
	r.running = Error{File: s.name, Line: s.line, Column: s.form.columns[dateRemoved], Found: shown(s.cells[dateRemoved]),
		Right: "a date or, as the drive still runs, the option --until with the last day of the record"}
}

func (r *datesReader) record(errs *Errors) Record {
	if r.running.Line > 0 {
		errs.add(r.running)
	}
	dayFirst, known := r.order.decide(errs)
	if known {
		for _, d := range r.waiting {
			r.take(d, dayFirst, errs)
		}
	}
	var out Record
	for i, f := range r.list {
		if note := r.order.note(dayFirst); note != "" {
			f.Notes = append(f.Notes, note)
		}
		if n := r.later[i]; n > 0 {
			f.Notes = append(f.Notes, fmt.Sprintf("Left out, as they came after the day of --until: %d drives.", n))
		}
		if len(f.Drives) > 0 {
			out.Fleets = append(out.Fleets, f)
		}
	}
	return out
}

// order is what the dates of a record tell of the order of day and month.
type order struct {
	dayFirst, monthFirst *seenDate               // the first that can be nothing else
	either               [dateFrom + 1]*seenDate // by column, the first that can be both
	open                 bool
}

// seenDate is a date with its place.
type seenDate struct {
	Error
	more int // of its column below it
}

// see takes a date into account.
func (o *order) see(s *sheet, place int, w written) {
	if !w.open() {
		return
	}
	seen := func() *seenDate {
		return &seenDate{Error: Error{File: s.name, Line: s.line, Column: s.form.columns[place], Found: shown(s.cells[place])}}
	}
	first, second := w.either()
	switch {
	case first > 12:
		if o.dayFirst == nil {
			o.dayFirst = seen()
		}
	case second > 12:
		if o.monthFirst == nil {
			o.monthFirst = seen()
		}
	case o.either[place] == nil:
		o.either[place] = seen()
		day, _ := w.day(true)
		month, _ := w.day(false)
		o.either[place].Right = fmt.Sprintf("%s or %s, whichever is meant: the year first in all dates", dateText(day), dateText(month))
	default:
		o.either[place].more++
	}
	o.open = true
}

// decide returns whether the day stands first, and whether that is known; where it is
// not, the errors say so.
func (o *order) decide(errs *Errors) (dayFirst, known bool) {
	switch {
	case o.dayFirst != nil && o.monthFirst != nil:
		d, m := *o.dayFirst, *o.monthFirst
		m.Found += fmt.Sprintf(", with the month first, where line %d has %s, with the day first", d.Line, d.Found)
		m.Right = "one order in all dates, best the year first: 2025-09-30"
		errs.add(m.Error)
		return false, false
	case o.dayFirst == nil && o.monthFirst == nil && o.open:
		for _, e := range o.either {
			if e != nil {
				e.Found += ", of which either number may be the month, as of every date in this record"
				e.Error.More = e.more
				errs.add(e.Error)
			}
		}
		return false, false
	}
	return o.monthFirst == nil, true
}

// note says which reading was taken, "" where there is but one.
func (o *order) note(dayFirst bool) string {
	seen, what := o.dayFirst, "day"
	if !dayFirst {
		seen, what = o.monthFirst, "month"
	}
	if seen == nil {
		return ""
	}
	return fmt.Sprintf("Dates are read with the %s first, as %s (%s, line %s) can be nothing else.", what, seen.Found, seen.Column, unit.Digits(float64(seen.Line), 15))
}
