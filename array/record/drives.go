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
