package schedule

import (
	"fmt"
	"maps"
	"slices"
	"strings"

	"arrayodds/array/unit"
)

// Sheet is a table of cells before anything is known of it.
type Sheet struct {
	Place  string // the file, and the sheet where there are several
	Rows   [][]string
	Merged []Merged
	cells  int // in the rows
	// commas: the decimals of the file have commas, so that a point may part
	// thousands.
	commas bool
}

// Add takes one row more, or returns what bound it is beyond.
func (s *Sheet) Add(row []string) *Fault {
	switch {
	case len(s.Rows) == maxRows:
		return &Fault{s.Place, "", fmt.Sprintf("more than %d rows, empty ones that have a format counted", maxRows), fmt.Sprintf("at most %d", maxRows)}
	case len(row) > maxColumns:
		return &Fault{s.Row(len(s.Rows)), "", fmt.Sprintf("%d columns", len(row)), fmt.Sprintf("at most %d", maxColumns)}
	}
	if s.cells += len(row); s.cells > maxCells {
		return &Fault{s.Row(len(s.Rows)), "", fmt.Sprintf("more than %d cells so far", maxCells), "a schedule of fewer"}
	}
	s.Rows = append(s.Rows, slices.Clone(Trimmed(row))) // so that the blanks go
	return nil
}

func (s *Sheet) cell(row, column int) string {
	return fmt.Sprintf("%s, cell %s%d", s.Place, letters(column), row+1)
}

// Row returns the place of a row, counted from 0.
func (s *Sheet) Row(row int) string { return fmt.Sprintf("%s, row %d", s.Place, row+1) }

// letters names a column as spreadsheets do: A, Z, AA.
func letters(column int) string {
	name := ""
	for column++; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name
}

// Headed reports whether there is a row of headings.
func (s *Sheet) Headed() bool {
	at, _ := s.headed()
	return at >= 0
}

// headed finds the row of headings, −1 where there is none, and its texts. Where
// headings stand in two rows, of which the first has those that span both, it is the
// second.
func (s *Sheet) headed() (at int, texts []string) {
	at, most := -1, 1
	for l := range s.lines() {
		known := map[string]bool{}
		for _, text := range l.texts {
			if h, ok := readHeading(text); ok {
				known[h.key] = true
			}
		}
		if len(known) > most {
			at, most, texts = l.row, len(known), slices.Clone(l.texts)
		} else if at >= 0 {
			break
		}
	}
	return at, texts
}

// columns returns what the columns hold, by the texts of the row of headings; those
// that are not read are noted.
func (s *Sheet) columns(at int, texts []string, out *Schedule) (map[int]heading, Faults) {
	var faults Faults
	columns, taken := map[int]heading{}, map[string]int{}
	for i, text := range texts {
		if h, ok := readHeading(text); ok {
			columns[i] = h
			if first, there := taken[h.key]; !there || columns[first].lesser && !h.lesser {
				taken[h.key] = i
			}
		} else if !blank(text) {
			out.Unread = append(out.Unread, Note{s.cell(at, i), Squeezed(text)})
		}
	}
	if _, wide := taken["width"]; !wide { // that at which cameras hang
		if i, high := taken["height"]; high {
			out.Unread = append(out.Unread, Note{s.cell(at, i), Squeezed(texts[i])})
			delete(columns, i)
		}
	}
	names := map[string]bool{}
	for _, i := range slices.Sorted(maps.Keys(columns)) {
		h, first := columns[i], taken[columns[i].key]
		name := canonical(texts[i])
		switch twice := names[name]; {
		case i == first:
		case h.lesser && (!columns[first].lesser || h.key == "label"): // there is a better one
			out.Unread = append(out.Unread, Note{s.cell(at, i), Squeezed(texts[i])})
			delete(columns, i)
		case h.key == "label" && !twice: // the area and the place in it
		default:
			faults = append(faults, Fault{s.cell(at, i), h.key, fmt.Sprintf("%s, which column %s is already", unit.Quote(texts[i]), letters(first)), "one column of it"})
		}
		names[name] = true
	}
	return columns, faults
}

// Read makes groups of the rows beneath the headings.
func (s *Sheet) Read() (*Schedule, error) {
	at, texts := s.headed()
	if at < 0 {
		return nil, Faults{{s.Place, "", "no row of headings", "headings above the columns, such as label, count, bitrate, retention"}}
	}
	out := &Schedule{}
	columns, faults := s.columns(at, texts, out)
	r := &reading{sheet: s, out: out, columns: columns, headings: texts, labels: map[string]int{}, merged: map[place]Merged{}, noted: map[Merged]bool{}}
	for _, m := range s.Merged {
		r.merged[place{m.Top, m.Left}] = m
	}
	if r.units(at + 1) {
		at++
	}
	r.last = r.lastGroup(at)
	for l := range s.lines() {
		if l.row > at {
			r.line(l)
		}
	}
	if len(out.Rows) == 0 && len(faults) == 0 {
		faults = append(faults, Fault{s.Place, "", "no group of cameras beneath the headings", "a row for each group"})
	}
	if faults != nil {
		return nil, faults
	}
	return out, nil
}

// reading is a sheet while groups are made of its rows.
type reading struct {
	sheet     *Sheet
	out       *Schedule
	columns   map[int]heading
	headings  []string
	labels    map[string]int   // groups so far by their label
	merged    map[place]Merged // by the first cell
	noted     map[Merged]bool  // those that there is a note of
	last      int              // the last row of two cells or more
	apart     bool             // something stands between that and this one
	all, part sum              // of all groups so far, and of those since the last total
	stray     bool             // it is noted that there are cells beneath no heading
}

// place is a row and a column, counted from 0.
type place struct{ row, column int }

// units takes the units of the columns from a row that has nothing but such, and
// reports whether it is one.
func (r *reading) units(row int) bool {
	if row >= len(r.sheet.Rows) {
		return false
	}
	found := map[int]heading{}
	for j, text := range r.sheet.Rows[row] {
		text = strings.Trim(Squeezed(text), "()[]")
		h, read := r.columns[j]
		switch of := unitOf(h.key, text); {
		case text == "" || !read && text == "-":
		case read && of != "":
			h.unit = of
			found[j] = h
		case read && slices.Contains(plainUnits[h.key], strings.ToLower(text)):
			found[j] = h
		default:
			return false
		}
	}
	maps.Copy(r.columns, found)
	return len(found) > 0
}

// lastGroup returns the last row that has two cells or more beneath headings and is
// no total.
func (r *reading) lastGroup(at int) int {
	last := at
	for i := at + 1; i < len(r.sheet.Rows); i++ {
		n := 0
		for j, text := range r.sheet.Rows[i] {
			switch _, read := r.columns[j]; {
			case isTotal(text):
				n = -maxColumns
			case read && !blank(text):
				n++
			}
		}
		if n >= 2 {
			last = i
		}
	}
	return last
}

// line reads one row.
func (r *reading) line(l line) {
	s := r.sheet
	row := Row{Place: s.Row(l.row), Cells: map[string]Cell{}}
	var own []string
	var label []string
	carried, stray := true, -1 // all of the label; a column without heading
	for j, text := range l.texts {
		if blank(text) {
			continue
		}
		from, down := l.from[j]
		if !down {
			own = append(own, text)
		}
		h, ok := r.columns[j]
		if !ok {
			if j >= len(r.headings) || blank(r.headings[j]) {
				stray = j
			}
			continue
		}
		cell, why := h.cell(text, s.commas)
		cell.Place = s.cell(l.row, j)
		if down {
			cell.Place = s.cell(from.Top, j)
		}
		if h.key == "count" && why == nil && !down {
			why = r.summed(l.row, j, cell)
		}
		if why != nil {
			why.Place, why.Key = cell.Place, h.key
			cell.Fault = why
		}
		if h.key == "label" {
			first, there := row.Cells["label"]
			if there && (first.Fault != nil || slices.Contains(label, cell.Text)) {
				continue
			}
			label, carried = append(label, cell.Text), carried && down
			cell.Text = strings.Join(label, ", ")
			if there {
				cell.Place = first.Place
			}
		}
		row.Cells[h.key] = cell
	}
	if len(own) == 0 { // blank, or all of it belongs to the row above
		r.apart = r.apart || l.row > r.last && len(l.texts) == 0
		return
	}
	note, why := total(l.texts, row, r.all, r.part), "a total"
	if note == "" {
		note, why = remark(own, row, r.across(l.row), l.row > r.last && r.apart), "no group"
	}
	if why == "a total" {
		r.part = sum{}
	}
	if note != "" {
		r.note(s.Row(l.row), fmt.Sprintf("%s, %s: not read", unit.Quote(note), why))
		r.apart = r.apart || l.row > r.last
		return
	}
	r.number(row, len(label) > 0 && carried, label)
	r.all.add(row)
	r.part.add(row)
	r.noteMerged(l)
	if stray >= 0 && !r.stray {
		r.note(s.cell(l.row, stray), "stands beneath no heading: not read, like all that does")
		r.stray = true
	}
	r.out.Rows = append(r.out.Rows, row)
}

func (r *reading) note(place, text string) { r.out.Notes = append(r.out.Notes, Note{place, text}) }

// number gives a label that spans several rows, and is all that they have, a number
// behind it from the second group on.
func (r *reading) number(row Row, carried bool, label []string) {
	text := strings.Join(label, ", ")
	r.labels[text]++
	if n := r.labels[text]; carried && n > 1 {
		c := row.Cells["label"]
		c.Text = fmt.Sprintf("%s %d", text, n)
		row.Cells["label"] = c
	}
}
