package record

import (
	"bufio"
	"cmp"
	"context"
	"fmt"
	"io"
	"slices"
	"time"

	"arrayodds/array"
)

// Options say how a record is read.
type Options struct {
	// Until is the day on which watching ended, not given where zero. A drive
	// not removed by then was running. What a dated record says of later days
	// is left out; a record without dates refuses it.
	Until time.Time
	// UntilUnknown says that a day was given which cannot be read: nothing is said
	// that hangs on it.
	UntilUnknown bool
	// Workbook reads records that are workbooks; where it is nil they are refused.
	Workbook Workbook
}

// Record is what was read, by label, in the order of the labels.
type Record struct {
	Form   string // in words
	Rows   int
	Fleets []array.Fleet
}

// checkEvery is how many rows are read between two looks at the context.
const checkEvery = 1 << 14

// Read reads a record, packed or not; name is what errors call it. An error is
// of type [Errors] where the record is at fault.
func Read(ctx context.Context, r io.Reader, name string, opt Options) (Record, error) {
	list, err := members(r, name, opt.Workbook)
	if err != nil {
		return Record{}, err
	}
	var errs Errors
	var first *sheet
	var to taker
	rows := 0
	buffer := bufio.NewReaderSize(nil, maxRow)
	for m := range list {
		s, n, err := readMember(ctx, m, buffer, &errs, func(s *sheet) taker {
			if first == nil {
				first, to = s, s.form.reader(opt)
			} else if s.form != first.form {
				s.wrongAt("", "the form: "+s.form.name, fmt.Sprintf("that of %s: %s", first.name, first.form.name))
				return nil
			}
			return to
		})
		if faults, ok := err.(Errors); ok {
			for _, e := range faults {
				errs.add(e)
			}
		} else if err != nil {
			return Record{}, err
		}
		rows += n
		if s != nil && s.stop && errs.full() {
			break // of the members
		}
	}
	var out Record
	if to != nil {
		out = to.record(&errs)
	}
	switch {
	case len(errs) > 0 || len(out.Fleets) > 0 || opt.UntilUnknown:
	case rows > 0 && !opt.Until.IsZero():
		errs.add(Error{File: name, Column: "--until", Found: opt.Until.Format(time.DateOnly) + ", before all that the record tells of", Right: "a later day, or to leave it out"})
	default:
		errs.add(Error{File: name, Found: "headings and nothing that counts below", Right: "at least one drive watched for a while"})
	}
	if len(errs) > 0 {
		for i := range errs {
			errs[i].File = cmp.Or(errs[i].File, name)
		}
		errs.sort()
		return Record{}, errs
	}
	out.Form, out.Rows = first.form.name, rows
	slices.SortFunc(out.Fleets, func(a, b array.Fleet) int { return cmp.Compare(a.Label, b.Label) })
	return out, nil
}

// readMember hands the rows of one text to the taker that is chosen when its
// headings are known.
func readMember(ctx context.Context, m member, buffer *bufio.Reader, errs *Errors, choose func(*sheet) taker) (*sheet, int, error) {
	in, err := m.open()
	if err != nil {
		return nil, 0, damaged(m.name, 0, err)
	}
	defer in.Close() // only read from
	buffer.Reset(in)
	s, err := open(m.name, buffer, errs)
	if s == nil || err != nil {
		return s, 0, err
	}
	s.first = m.first
	to := choose(s)
	if to == nil {
		return s, 0, nil
	}
	for rows := 0; ; rows++ {
		if rows%checkEvery == 0 && ctx.Err() != nil {
			return s, rows, ctx.Err()
		}
		more, err := s.next()
		if !more || err != nil {
			return s, rows, err
		}
		to.row(s)
	}
}

// everyone is the label where the record gives none.
const everyone = "all drives"

// fleets gathers by label.
type fleets struct {
	byLabel map[string]int
	list    []array.Fleet
	drives  int
	refused bool // too many: said once
}

// of returns the fleet of a label, nil where there are too many.
func (f *fleets) of(s *sheet, label string) *array.Fleet {
	i, known := f.byLabel[label]
	if !known {
		if len(f.list) == maxLabels {
			f.full(s, fmt.Sprintf("more than %d labels", maxLabels), "a column of labels with fewer of them")
			return nil
		}
		if f.byLabel == nil {
			f.byLabel = map[string]int{}
		}
		i = len(f.list)
		f.byLabel[label] = i
		f.list = append(f.list, array.Fleet{Label: label})
	}
	return &f.list[i]
}

// room reports whether one drive more may be kept.
func (f *fleets) room(s *sheet) bool {
	if f.drives == maxDrives {
		f.full(s, fmt.Sprintf("more than %d drives", maxDrives), "a record of fewer, such as one label at a time")
		return false
	}
	f.drives++
	return true
}

func (f *fleets) full(s *sheet, found, right string) {
	if !f.refused {
		s.wrongAt("", found, right)
	}
	f.refused, s.stop = true, true
}

// labelled returns the fleet that a row belongs to, by the first of the columns that
// the text has.
func (f *fleets) labelled(s *sheet, places ...int) *array.Fleet {
	for _, p := range places {
		if s.cells[p] == nil {
			continue
		}
		label, ok := s.label(p, longestName)
		if !ok {
			return nil
		}
		return f.of(s, cmp.Or(label, everyone))
	}
	return f.of(s, everyone)
}
