package schedule

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"arrayodds/array/unit"
)

func readXLSX(data []byte, name string) (got *Schedule, err error) {
	// The library is written for workbooks that are whole.
	defer func() {
		if broken := recover(); broken != nil {
			got, err = nil, Faults{{name, "", "a workbook that is damaged", "a workbook (.xlsx) that opens"}}
		}
	}()
	if why := parts(data, name); why != nil {
		return nil, Faults{*why}
	}
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: maxUnpacked, UnzipXMLSizeLimit: maxUnpacked})
	if err != nil {
		return nil, Faults{{name, "", "a file that cannot be read as a workbook (" + plainText(err) + ")", "a workbook (.xlsx) without a password"}}
	}
	defer f.Close() // only read from
	var read *sheet
	var others []Note
	var faults Faults
	for _, title := range f.GetSheetList() {
		s := &sheet{place: fmt.Sprintf("%s, sheet %s", name, unit.Quote(title))}
		if read != nil {
			others = append(others, Note{s.place, "not read: an earlier sheet has headings"})
			continue
		}
		if why := s.fill(f, title); why != nil {
			faults = append(faults, *why)
			continue
		}
		if s.headed() >= 0 {
			read = s
		}
	}
	if read == nil {
		if faults == nil {
			faults = Faults{{name, "", "no sheet with a row of headings", "headings above the columns, such as label, count, bitrate, retention"}}
		}
		return nil, faults
	}
	out, err := read.read()
	if err != nil {
		return nil, err
	}
	out.Skipped = append(out.Skipped, others...)
	return out, nil
}

// fill takes the cells of a sheet: their values, not how they are shown, which
// may be rounded; save for per cent, where 0.5 is meant and shown as 50 %. Rows
// are streamed: the library's whole model of a sheet grows with its emptiness.
func (s *sheet) fill(f *excelize.File, title string) *Fault {
	if why := s.stream(f, title, true); why != nil {
		return why
	}
	if s.headed() < 0 { // then it is not read any further
		return nil
	}
	as := &sheet{place: s.place}
	if why := as.stream(f, title, false); why != nil {
		return why
	}
	shown := as.rows
	for i, row := range s.rows {
		for j, v := range row {
			x, err := strconv.ParseFloat(v, 64)
			switch {
			case err != nil:
			case i < len(shown) && j < len(shown[i]) && strings.HasSuffix(strings.TrimSpace(shown[i][j]), "%") && !strings.HasSuffix(v, "%"):
				row[j] = strconv.FormatFloat(100*x, 'g', 13, 64) + " %"
			case len(v) > digitsKept: // 6.1 is stored as 6.0999999999999996
				row[j] = strconv.FormatFloat(x, 'g', digitsKept, 64)
			}
		}
	}
	return nil
}

// digitsKept is the digits that spreadsheets keep of a number.
const digitsKept = 15

// stream reads the rows of a sheet one after the other.
func (s *sheet) stream(f *excelize.File, title string, raw bool) *Fault {
	unreadable := func(place string, err error) *Fault {
		return &Fault{place, "", "cells that cannot be read (" + plainText(err) + ")", "a workbook (.xlsx) that opens"}
	}
	in, err := f.Rows(title)
	if err != nil {
		return unreadable(s.place, err)
	}
	defer in.Close() // only read from
	for in.Next() {
		row, err := in.Columns(excelize.Options{RawCellValue: raw})
		if err != nil {
			return unreadable(s.row(len(s.rows)), err)
		}
		if why := s.add(trimmed(row)); why != nil {
			return why
		}
	}
	if err := in.Error(); err != nil {
		return unreadable(s.place, err)
	}
	return nil
}

// plainText returns an error of the library in one line, and not too long.
func plainText(err error) string {
	text := squeezed(err.Error())
	if quoted := unit.Quote(text); len(quoted) > 2 {
		return strings.TrimSuffix(strings.TrimPrefix(quoted, `"`), `"`)
	}
	return text
}
