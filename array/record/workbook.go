package record

import (
	"bytes"
	"encoding/csv"
	"fmt"
	"io"
	"slices"
	"strings"

	"arrayodds/array/unit"
)

// Workbook reads the sheets of a workbook. An error of type [Errors] is of the file.
type Workbook func(data []byte, name string) ([]Sheet, error)

// Sheet is a sheet of a workbook: its values, not how they are shown.
type Sheet struct {
	Title    string
	Rows     [][]string
	Date1904 bool // its dates count from 1904-01-01 and not from 1899-12-30
}

// maxWorkbook bounds a workbook in bytes.
const maxWorkbook = 16 << 20

// sheetOf returns the first sheet of a workbook that has the headings of a record, as
// text, with what stands above them left blank. Where none has, it is the first that
// is not empty, so that reading says what is missing.
func sheetOf(r io.Reader, name string, workbook Workbook) ([]member, error) {
	if workbook == nil {
		return nil, Errors{{File: name, Found: "a workbook, which cannot be read here", Right: "the record saved as CSV"}}
	}
	data, err := io.ReadAll(io.LimitReader(r, maxWorkbook+1))
	switch {
	case err != nil:
		return nil, err
	case len(data) > maxWorkbook:
		return nil, Errors{{File: name, Found: "a workbook of more than 16 MiB", Right: "the record saved as CSV"}}
	}
	sheets, err := workbook(data, name)
	if err != nil {
		return nil, err
	}
	for _, s := range sheets {
		if at := slices.IndexFunc(s.Rows, headed); at >= 0 {
			return []member{s.member(name, at)}, nil
		}
	}
	for _, s := range sheets {
		if at := slices.IndexFunc(s.Rows, func(row []string) bool { return strings.TrimSpace(strings.Join(row, "")) != "" }); at >= 0 {
			return []member{s.member(name, at)}, nil
		}
	}
	return nil, Errors{{File: name, Found: "an empty workbook", Right: "a row of headings and the record below"}}
}

// headed reports whether a row has the headings of a form.
func headed(row []string) bool {
	var headings [][]byte
	for _, cell := range row {
		headings = append(headings, heading([]byte(cell)))
	}
	return slices.ContainsFunc(forms, func(f *form) bool { return len(f.missing(headings)) == 0 })
}

// Days from 1970-01-01 back to where workbooks count dates from.
const (
	epoch1900 = -25569
	epoch1904 = -24107
)

// member returns a sheet as a text whose lines are its rows.
func (s Sheet) member(name string, at int) member {
	first := int32(epoch1900)
	if s.Date1904 {
		first = epoch1904
	}
	return member{fmt.Sprintf("%s, sheet %s", name, unit.Quote(s.Title)), func() (io.ReadCloser, error) {
		var b bytes.Buffer
		w := csv.NewWriter(&b)
		for i, row := range s.Rows {
			line := make([]string, max(len(row), 1))
			if i >= at {
				for j, cell := range row {
					line[j] = lineEnds.Replace(cell)
				}
			}
			if strings.Join(line, "") == "" {
				w.Flush()
				b.WriteByte('\n')
				continue
			}
			if err := w.Write(line); err != nil {
				return nil, err
			}
		}
		w.Flush()
		return io.NopCloser(&b), w.Error()
	}, first}
}

// lineEnds is what may stand in a cell and not in a line.
var lineEnds = strings.NewReplacer("\r\n", " ", "\n", " ", "\r", " ")
