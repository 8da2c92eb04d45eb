package record

import (
	"fmt"
	"math"

	"arrayodds/array"
)

var sums = form{name: "sums", needed: 2,
	columns: []string{"drive_days", "failures", "label", "model", "age_from", "age_to"},
	reader:  func(o Options) taker { return &sumsReader{until: !o.Until.IsZero()} }}

const (
	sumDays = iota
	sumFailures
	sumLabel
	sumModel
	sumFrom
	sumTo
)

// Bounds of sums: what a site file takes of them.
const (
	mostDriveDays = 1e12
	mostFailures  = 1e9
	mostAge       = 100 // years
	mostSums      = 100_000
)

type sumsReader struct {
	fleets
	until bool
	rows  int
}

func (r *sumsReader) row(s *sheet) {
	if r.rows++; r.rows > mostSums {
		r.full(s, fmt.Sprintf("more than %d sums", mostSums), "fewer")
		return
	}
	var c array.Counted
	ok := true
	if c.DriveDays, ok = s.number(s.cells[sumDays]); !ok || !(c.DriveDays > 0) || c.DriveDays > mostDriveDays {
		s.wrong(sumDays, "days, above 0 and at most 1e12")
		ok = false
	}
	var counted bool
	if c.Failures, counted = s.number(s.cells[sumFailures]); !counted || c.Failures != math.Trunc(c.Failures) || c.Failures > mostFailures {
		s.wrong(sumFailures, "a whole number, 0 or more")
		ok = false
	} else if ok && c.Failures > c.DriveDays {
		s.wrong(sumFailures, "no more failures than drive-days")
		ok = false
	}
	if !r.band(s, &c) {
		ok = false
	}
	if f := r.labelled(s, sumLabel, sumModel); f != nil && ok {
		f.Sums = append(f.Sums, c)
	}
}

// band reads the ages that a sum covers.
func (r *sumsReader) band(s *sheet, c *array.Counted) bool {
	from, to := s.cells[sumFrom], s.cells[sumTo]
	if len(from) == 0 && len(to) == 0 {
		return true
	}
	var okFrom, okTo bool
	if c.From, okFrom = s.number(from); !okFrom || c.From > mostAge {
		s.wrong(sumFrom, "an age in years, 0 or more")
		okFrom = false
	}
	if c.To, okTo = s.number(to); !okTo || c.To > mostAge {
		s.wrong(sumTo, "an age in years, at most 100")
		okTo = false
	}
	if okFrom && okTo && c.To <= c.From {
		s.wrong(sumTo, "an age above that of age_from")
		return false
	}
	return okFrom && okTo
}

func (r *sumsReader) record(errs *Errors) Record {
	if r.until {
		errs.add(undated)
	}
	return Record{Fleets: r.list}
}

var undated = Error{Column: "--until", Found: "a day, and no dates in the record", Right: "to leave it out"}
