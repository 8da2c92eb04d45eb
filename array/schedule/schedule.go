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

// Bounds of what is read at all. Those of a workbook are in parts.go.
const (
	MaxBytes     = 16 << 20
	maxRows      = 10_000
	maxColumns   = 256
	maxCells     = 400_000 // of a sheet
	maxLine      = 1 << 20 // bytes of a line of CSV
	maxCellRunes = 1000
)

// Read reads a file of a schedule; name tells its form by its ending and is what
// places are called by. The error, of type [Faults], is of the form of the file;
// a single cell that cannot be read has its own [Cell].Fault.
func Read(data []byte, name string) (*Schedule, error) {
	if len(data) > MaxBytes {
		return nil, Faults{{name, "", "a file of more than 16 MiB", "a schedule of at most 16 MiB"}}
	}
	switch strings.ToLower(path.Ext(name)) {
	case ".csv":
		return readCSV(data, name)
	case ".xlsx":
		return readXLSX(data, name)
	}
	return nil, Faults{{name, "", "a file that is neither .csv nor .xlsx", "a schedule saved as CSV or XLSX"}}
}

// sheet is a table of cells before anything is known of it.
type sheet struct {
	place string // the file, and the sheet where there are several
	rows  [][]string
	cells int // in the rows
	// commas: the decimals of the file have commas, so that a point may part
	// thousands.
	commas bool
}

// add takes one row more.
func (s *sheet) add(row []string) *Fault {
	switch {
	case len(s.rows) == maxRows:
		return &Fault{s.place, "", fmt.Sprintf("more than %d rows, empty ones that have a format counted", maxRows), fmt.Sprintf("at most %d", maxRows)}
	case len(row) > maxColumns:
		return &Fault{s.row(len(s.rows)), "", fmt.Sprintf("%d columns", len(row)), fmt.Sprintf("at most %d", maxColumns)}
	}
	if s.cells += len(row); s.cells > maxCells {
		return &Fault{s.row(len(s.rows)), "", fmt.Sprintf("more than %d cells so far", maxCells), "a schedule of fewer"}
	}
	s.rows = append(s.rows, slices.Clone(trimmed(row))) // so that the blanks go
	return nil
}

func (s *sheet) cell(row, column int) string {
	return fmt.Sprintf("%s, cell %s%d", s.place, letters(column), row+1)
}

func (s *sheet) row(row int) string { return fmt.Sprintf("%s, row %d", s.place, row+1) }

// letters names a column as spreadsheets do: A, Z, AA.
func letters(column int) string {
	name := ""
	for column++; column > 0; column = (column - 1) / 26 {
		name = string(rune('A'+(column-1)%26)) + name
	}
	return name
}

// headed finds the row of headings: −1 where there is none.
func (s *sheet) headed() int {
	for i, row := range s.rows {
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

// read makes groups of the rows beneath the headings.
func (s *sheet) read() (*Schedule, error) {
	at := s.headed()
	if at < 0 {
		return nil, Faults{{s.place, "", "no row of headings", "headings above the columns, such as label, count, bitrate, retention"}}
	}
	var faults Faults
	out := &Schedule{}
	columns := map[int]heading{}
	taken := map[string]int{}
	for i, text := range s.rows[at] {
		if blank(text) {
			continue
		}
		h, ok := readHeading(text)
		if !ok {
			out.Unread = append(out.Unread, Note{s.cell(at, i), squeezed(text)})
			continue
		}
		if first, twice := taken[h.key]; twice {
			faults = append(faults, Fault{s.cell(at, i), h.key, fmt.Sprintf("%s, which column %s is already", unit.Quote(text), letters(first)), "one column of it"})
			continue
		}
		taken[h.key], columns[i] = i, h
	}
	for i := at + 1; i < len(s.rows); i++ {
		row := Row{Place: s.row(i), Cells: map[string]Cell{}}
		empty := true
		for j, text := range s.rows[i] {
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
		switch text := total(s.rows[i], row); {
		case empty:
		case text != "":
			out.Skipped = append(out.Skipped, Note{s.row(i), fmt.Sprintf("%s, a total: not read", unit.Quote(text))})
		default:
			out.Rows = append(out.Rows, row)
		}
	}
	if len(out.Rows) == 0 && len(faults) == 0 {
		faults = append(faults, Fault{s.place, "", "no group of cameras beneath the headings", "a row for each group"})
	}
	if faults != nil {
		return nil, faults
	}
	return out, nil
}

func blank(text string) bool { return squeezed(text) == "" }

// squeezed trims the ends and makes one blank of every run of them.
func squeezed(text string) string {
	if text == "" {
		return ""
	}
	return strings.Join(strings.Fields(plainBlanks.Replace(text)), " ")
}

var plainBlanks = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ", "\ufeff", " ")

// trimmed takes the blank cells off the end of a row.
func trimmed(row []string) []string {
	for len(row) > 0 && blank(row[len(row)-1]) {
		row = row[:len(row)-1]
	}
	return row
}
