package schedule

import (
	"fmt"
	"path"
	"slices"
	"strings"

	"arrayodds/array/unit"
)

// Schedule is what was read.
type Schedule struct {
	Rows    []Row
	Skipped []Note // totals, and sheets that were not read
	Unread  []Note // headings that are not known
}

// Row is one group of cameras.
type Row struct {
	Place string          // "schedule.xlsx, sheet "Cameras", row 7"
	Cells map[string]Cell // by the key of the site file; blank cells are not there
}

// Cell is a value with its place.
type Cell struct {
	Place  string // "schedule.xlsx, sheet "Cameras", cell C7"
	Text   string // with its unit, and a decimal point
	Number bool   // Text is a plain number of a key that has no unit
	Fault  *Fault // why Text cannot be read; nil: it can
}

// Note is something that was found and not read.
type Note struct{ Place, Text string }

// Fault is one thing that is wrong with the file.
type Fault struct {
	Place string
	Key   string // empty where no key can be named
	Found string
	Right string // what would be right
}

// Error returns one line: place: key: found X; right would be Y.
func (f Fault) Error() string {
	key := ""
	if f.Key != "" {
		key = f.Key + ": "
	}
	return fmt.Sprintf("%s: %sfound %s; right would be %s", f.Place, key, f.Found, f.Right)
}

// Faults is everything that is wrong with the form of a file.
type Faults []Fault

// Error returns one line for each fault.
func (f Faults) Error() string {
	lines := make([]string, len(f))
	for i := range f {
		lines[i] = f[i].Error()
	}
	return strings.Join(lines, "\n")
}

// Bounds of what is read at all. Those of a workbook are in package workbook.
const (
	MaxBytes     = 16 << 20
	maxRows      = 10_000
	maxColumns   = 256
	maxCells     = 400_000 // of a sheet
	maxLine      = 1 << 20 // bytes of a line of CSV
	maxCellRunes = 1000
)

// Workbook reads a schedule that is a workbook; package workbook has one.
type Workbook func(data []byte, name string) (*Schedule, error)

// Read reads a file of a schedule; name tells its form by its ending and is what
// places are called by. workbook is for those that are one; where it is nil they are
// refused. The error, of type [Faults], is of the form of the file; a single cell that
// cannot be read has its own [Cell].Fault.
func Read(data []byte, name string, workbook Workbook) (*Schedule, error) {
	if len(data) > MaxBytes {
		return nil, Faults{{name, "", "a file of more than 16 MiB", "a schedule of at most 16 MiB"}}
	}
	switch strings.ToLower(path.Ext(name)) {
	case ".csv":
		return readCSV(data, name)
	case ".xlsx":
		if workbook == nil {
			return nil, Faults{{name, "", "a workbook, which cannot be read here", "a schedule saved as CSV"}}
		}
		return workbook(data, name)
	}
	return nil, Faults{{name, "", "a file that is neither .csv nor .xlsx", "a schedule saved as CSV or XLSX"}}
}

// Sheet is a table of cells before anything is known of it.
type Sheet struct {
	Place string // the file, and the sheet where there are several
	Rows  [][]string
	cells int // in the rows
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
func (s *Sheet) Headed() bool { return s.headed() >= 0 }

// headed finds the row of headings: −1 where there is none.
func (s *Sheet) headed() int {
	for i, row := range s.Rows {
		known := map[string]bool{}
		for _, text := range row {
			if h, ok := readHeading(text); ok {
				known[h.key] = true
			}
		}
		if len(known) >= 2 {
			return i
		}
	}
	return -1
}

// Read makes groups of the rows beneath the headings.
func (s *Sheet) Read() (*Schedule, error) {
	at := s.headed()
	if at < 0 {
		return nil, Faults{{s.Place, "", "no row of headings", "headings above the columns, such as label, count, bitrate, retention"}}
	}
	var faults Faults
	out := &Schedule{}
	columns := map[int]heading{}
	taken := map[string]int{}
	for i, text := range s.Rows[at] {
		if blank(text) {
			continue
		}
		h, ok := readHeading(text)
		if !ok {
			out.Unread = append(out.Unread, Note{s.cell(at, i), Squeezed(text)})
			continue
		}
		if first, twice := taken[h.key]; twice {
			faults = append(faults, Fault{s.cell(at, i), h.key, fmt.Sprintf("%s, which column %s is already", unit.Quote(text), letters(first)), "one column of it"})
			continue
		}
		taken[h.key], columns[i] = i, h
	}
	for i := at + 1; i < len(s.Rows); i++ {
		row := Row{Place: s.Row(i), Cells: map[string]Cell{}}
		empty := true
		for j, text := range s.Rows[i] {
			if blank(text) {
				continue
			}
			empty = false
			h, ok := columns[j]
			if !ok {
				continue
			}
			cell, why := h.cell(text, s.commas)
			cell.Place = s.cell(i, j)
			if why != nil {
				why.Place, why.Key = cell.Place, h.key
				cell.Fault = why
			}
			row.Cells[h.key] = cell
		}
		switch text := total(s.Rows[i], row); {
		case empty:
		case text != "":
			out.Skipped = append(out.Skipped, Note{s.Row(i), fmt.Sprintf("%s, a total: not read", unit.Quote(text))})
		default:
			out.Rows = append(out.Rows, row)
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

func blank(text string) bool { return Squeezed(text) == "" }

// Squeezed trims the ends and makes one blank of every run of them.
func Squeezed(text string) string {
	if text == "" {
		return ""
	}
	return strings.Join(strings.Fields(plainBlanks.Replace(text)), " ")
}

var plainBlanks = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ", "\ufeff", " ")

// Trimmed takes the blank cells off the end of a row.
func Trimmed(row []string) []string {
	for len(row) > 0 && blank(row[len(row)-1]) {
		row = row[:len(row)-1]
	}
	return row
}
