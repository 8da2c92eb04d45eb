package schedule

import (
	"fmt"
	"path"
	"strings"
	"unicode"
)

// Schedule is what was read.
type Schedule struct {
	Rows   []Row
	Notes  []Note // rows and sheets that were not read, and cells that were read otherwise than they stand
	Unread []Note // headings that are not known
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

func blank(text string) bool {
	return strings.IndexFunc(text, func(r rune) bool { return !unicode.IsSpace(r) && r != '\ufeff' }) < 0
}

// Squeezed trims the ends and makes one blank of every run of them.
func Squeezed(text string) string {
	if text == "" {
		return ""
	}
	// A replacer would copy a text in which it finds nothing. The other blanks of
	// spreadsheets, such as U+00A0, are spaces for Fields already.
	return strings.Join(strings.Fields(strings.ReplaceAll(text, "\ufeff", " ")), " ")
}

// Trimmed takes the blank cells off the end of a row.
func Trimmed(row []string) []string {
	for len(row) > 0 && blank(row[len(row)-1]) {
		row = row[:len(row)-1]
	}
	return row
}
