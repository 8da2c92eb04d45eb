package site

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"io/fs"
	slash "path"
	"strings"

	"arrayodds/array"
	"arrayodds/array/nearest"
	"arrayodds/array/schedule"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

const scheduleRight = `a .csv or .xlsx file beside the site file or in a folder beneath it, such as "schedule.xlsx"`

// schedule reads the camera groups from the spreadsheet that n names. Its cells
// become tables like those of the file itself, so that the same code judges
// them; each cell is a line of its own, by which its place is found again.
func (r *reader) schedule(t *toml.Table, n *toml.Node) []array.Cameras {
	name, ok := t.Line("cameras", n)
	if !ok {
		return nil
	}
	data, why := r.opened(name, schedule.MaxBytes)
	if why != "" {
		t.WrongAt(n, "cameras", unit.Quote(name)+why, scheduleRight, "")
		return nil
	}
	r.scheduled = slash.Clean(name)
	s, err := schedule.Read(data, r.scheduled, r.options.workbook)
	var faults schedule.Faults
	if errors.As(err, &faults) {
		for _, f := range faults {
			t.Errs = append(t.Errs, toml.Error{File: t.Name, Line: n.Line, Place: f.Place, Key: f.Key, Found: f.Found, Right: f.Right})
		}
		return nil
	}
	if most := t.Key("cameras").Most; len(s.Rows) > most {
		t.WrongAt(n, "cameras", fmt.Sprintf("%d groups in %s", len(s.Rows), unit.Quote(name)), fmt.Sprintf("at most %d", most), "")
		return nil
	}
	return readRows(t, n, name, s)
}

// opened returns the bytes of a file that the site file names, at most one more than
// so many, or why there are none.
func (r *reader) opened(name string, most int64) (data []byte, why string) {
	if r.options.beside == nil {
		return nil, ", which cannot be opened from here"
	}
	name = slash.Clean(name)
	if !fs.ValidPath(name) || strings.ContainsAny(name, `\:`) {
		return nil, ", which is not beside the site file"
	}
	f, err := r.options.beside.Open(name)
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
	// Its size is known, so that the bytes need be held once alone; it may grow meanwhile.
	in := bytes.NewBuffer(make([]byte, 0, min(info.Size(), most+1)+bytes.MinRead))
	if _, err = in.ReadFrom(io.LimitReader(f, most+1)); err != nil {
		return nil, ", which cannot be read"
	}
	return in.Bytes(), ""
}

// readRows reads the groups of a schedule.
func readRows(t *toml.Table, n *toml.Node, name string, s *schedule.Schedule) []array.Cameras {
	d := &toml.Document{Name: t.Name, Places: []string{""}}
	r := &toml.Reader{Document: d, Schema: t.Schema, Asked: t.Asked}
	line := func(place string) int {
		d.Places = append(d.Places, place)
		return len(d.Places) - 1
	}
	noteUnread(t, d, line, n, s)
	if len(d.Errs) > 0 { // a misspelt column would be missing in every row
		s.Rows = nil
	}
	var all []array.Cameras
	named := labels{}
	for i, row := range s.Rows {
		at := line(row.Place)
		group := toml.NewTable(at, at)
		for _, k := range cameraKeys {
			key := k.Path
			c, there := row.Cells[key]
			if !there {
				continue
			}
			at := line(c.Place)
			cell := &toml.Node{Kind: toml.StringNode, Line: at, Offset: at, Text: c.Text}
			if c.Number {
				cell.Kind = toml.FloatNode
			}
			if f := c.Fault; f != nil {
				cell.Kind = toml.BrokenNode
				d.Fail(at, toml.Join("cameras", key), f.Found, f.Right, "")
			}
			group.Add(key, cell)
		}
		all = append(all, readCamera(r.Table(group, "", "cameras"), i+1, named))
	}
	for _, e := range d.Errs.ByLine() {
		e.Place, e.Line = d.Places[e.Line], n.Line
		e.Right = toml.Unquoted(e.Right)
		t.Errs = append(t.Errs, e)
	}
	t.Note(n.Offset, "cameras", fmt.Sprintf("%s: %s", name, unit.Count(len(all), "group", "groups")), false)
	for _, skipped := range s.Notes {
		t.Note(n.Offset, "cameras", skipped.Place+": "+skipped.Text, false)
	}
	t.NoteRows(n.Offset, r.SortedNotes())
	return all
}

// noteUnread lists the columns that are not known, and reports those that are a
// known one misspelt.
func noteUnread(t *toml.Table, d *toml.Document, line func(string) int, n *toml.Node, s *schedule.Schedule) {
	// Short words are near to too many others, and "camera" may be a model.
	const least, other = 5, "cameras"
	var names []string
	for _, h := range s.Unread {
		name, _, _ := strings.Cut(h.Text, "(")
		if mean := nearest.Name(name, schedule.Headings()); len(mean) >= least && mean != other && !schedule.Known(h.Text) {
			d.Fail(line(h.Place), "", "the heading "+unit.Quote(h.Text), "one that is known, or quite another", mean)
			continue
		}
		names = append(names, unit.Quote(h.Text))
	}
	if len(names) > 0 {
		t.Note(n.Offset, "cameras", "columns that are not read: "+strings.Join(names, ", "), false)
	}
}
