package site

import (
	"errors"
	"fmt"
	"io"
	"io/fs"
	slash "path"
	"strings"

	"arrayodds/array"
	"arrayodds/array/schedule"
	"arrayodds/array/unit"
)

const scheduleRight = `a .csv or .xlsx file beside the site file or in a folder beneath it, such as "schedule.xlsx"`

// schedule reads the camera groups from the spreadsheet that n names. Its cells
// become tables like those of the file itself, so that the same code judges
// them; each cell is a line of its own, by which its place is found again.
func (t *table) schedule(n *node) []array.Cameras {
	name, ok := t.words("cameras", n)
	if !ok {
		return nil
	}
	data, why := t.opened(name)
	if why != "" {
		t.wrongAt(n, "cameras", unit.Quote(name)+why, scheduleRight, "")
		return nil
	}
	t.scheduled = slash.Clean(name)
	s, err := schedule.Read(data, t.scheduled)
	var faults schedule.Faults
	if errors.As(err, &faults) {
		for _, f := range faults {
			t.errs = append(t.errs, Error{File: t.document.name, Line: n.line, Place: f.Place, Key: f.Key, Found: f.Found, Right: f.Right})
		}
		return nil
	}
	if len(s.Rows) > maxGroups {
		t.wrongAt(n, "cameras", fmt.Sprintf("%d groups in %s", len(s.Rows), unit.Quote(name)), fmt.Sprintf("at most %d", maxGroups), "")
		return nil
	}
	return t.rows(n, name, s)
}

// opened is the bytes of a schedule, or why there are none.
func (t *table) opened(name string) (data []byte, why string) {
	if t.options.beside == nil {
		return nil, ", which cannot be opened from here"
	}
	name = slash.Clean(name)
	if !fs.ValidPath(name) || strings.ContainsAny(name, `\:`) {
		return nil, ", which is not beside the site file"
	}
	f, err := t.options.beside.Open(name)
	switch {
	case errors.Is(err, fs.ErrNotExist):
		return nil, ", which is not there"
	case err != nil:
		return nil, ", which cannot be opened"
	}
	defer f.Close() // only read from
	info, err := f.Stat()
	if err != nil || !info.Mode().IsRegular() {
		return nil, ", which is no file"
	}
	if data, err = io.ReadAll(io.LimitReader(f, schedule.MaxBytes+1)); err != nil {
		return nil, ", which cannot be read"
	}
	return data, ""
}

// rows reads the groups of a schedule.
func (t *table) rows(n *node, name string, s *schedule.Schedule) []array.Cameras {
	d := &document{name: t.document.name, places: []string{""}}
	r := &reader{document: d, asked: t.asked}
	line := func(place string) int {
		d.places = append(d.places, place)
		return len(d.places) - 1
	}
	t.unread(d, line, n, s)
	if len(d.errs) > 0 { // a misspelt column would be missing in every row
		s.Rows = nil
	}
	var all []array.Cameras
	named := labels{}
	for i, row := range s.Rows {
		at := line(row.Place)
		group := newTable(byValue, at, at)
		for _, key := range append([]string{"label", "count", "bitrate", "hours_per_day", "activity", "retention"}, pictureKeys...) {
			c, there := row.Cells[key]
			if !there {
				continue
			}
			at := line(c.Place)
			cell := &node{kind: text, line: at, offset: at, text: c.Text}
			if c.Number {
				cell.kind = decimal
			}
			if f := c.Fault; f != nil {
				cell.kind = broken
				d.fail(at, path("cameras", key), f.Found, f.Right, "")
			}
			group.add(key, cell)
		}
		all = append(all, r.in(group, "", "cameras").camera(i+1, named))
	}
	for _, e := range d.errs.byLine() {
		e.Place, e.Line = d.places[e.Line], n.line
		e.Right = unquoted.Replace(e.Right)
		t.errs = append(t.errs, e)
	}
	t.note(n.offset, "cameras", fmt.Sprintf("%s: %s", name, some(len(all), "group")), false)
	for _, skipped := range s.Skipped {
		t.note(n.offset, "cameras", skipped.Place+": "+skipped.Text, false)
	}
	for i, read := range r.sortedNotes() {
		t.notes = append(t.notes, note{read.Assumption, n.offset, i + 1})
	}
	return all
}

// unquoted takes out of an error what is said of texts in TOML.
var unquoted = strings.NewReplacer(" in quotes", "", ", without quotes", "")

// unread lists the columns that are not known, and reports those that are a
// known one misspelt.
func (t *table) unread(d *document, line func(string) int, n *node, s *schedule.Schedule) {
	// Short words are near to too many others, and "camera" may be a model.
	const least, other = 5, "cameras"
	var names []string
	for _, h := range s.Unread {
		name, _, _ := strings.Cut(h.Text, "(")
		if mean := nearest(name, schedule.Headings()); len(mean) >= least && mean != other {
			d.fail(line(h.Place), "", "the heading "+unit.Quote(h.Text), "one that is known, or quite another", mean)
			continue
		}
		names = append(names, unit.Quote(h.Text))
	}
	if len(names) > 0 {
		t.note(n.offset, "cameras", "columns that are not read: "+strings.Join(names, ", "), false)
	}
}
