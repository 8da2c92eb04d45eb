package workbook

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"

	"github.com/xuri/excelize/v2"

	"arrayodds/array/schedule"
	"arrayodds/array/unit"
)

// Read reads a workbook; name is what places are called by. The error, of type
// [schedule.Faults], is of the form of the file.
func Read(data []byte, name string) (got *schedule.Schedule, err error) {
	// The library is written for workbooks that are whole.
	defer func() {
		if broken := recover(); broken != nil {
			got, err = nil, schedule.Faults{*fault(name, "a workbook that is damaged", "a workbook (.xlsx) that opens")}
		}
	}()
	f, err := opened(data, name, "a workbook with the schedule alone")
	if err != nil {
		return nil, err
	}
	defer f.Close() // only read from
	archive, err := open(data)
	if err != nil {
		return nil, schedule.Faults{*fault(name, "a file that is no workbook", "a workbook (.xlsx) without a password")}
	}
	var read *schedule.Sheet
	var others []schedule.Note
	var faults schedule.Faults
	for _, title := range f.GetSheetList() {
		s := &schedule.Sheet{Place: fmt.Sprintf("%s, sheet %s", name, unit.Quote(title))}
		if read != nil {
			others = append(others, schedule.Note{Place: s.Place, Text: "not read: an earlier sheet has headings"})
			continue
		}
		var why *schedule.Fault
		if s.Merged, why = archive.mergedIn(title, s.Place); why != nil {
			faults = append(faults, *why)
			continue
		}
		if why := fill(s, f, title); why != nil {
			faults = append(faults, *why)
			continue
		}
		if s.Headed() {
			read = s
		}
	}
	if read == nil {
		if faults == nil {
			faults = schedule.Faults{*fault(name, "no sheet with a row of headings", "headings above the columns, such as label, count, bitrate, retention")}
		}
		return nil, faults
	}
	out, err := read.Read()
	if err != nil {
		return nil, err
	}
	out.Notes = append(out.Notes, others...)
	return out, nil
}

// opened opens a workbook that is within bounds; alone says what would be right where
// it is not.
func opened(data []byte, name, alone string) (*excelize.File, error) {
	if why := parts(data, name, alone); why != nil {
		return nil, schedule.Faults{*why}
	}
	f, err := excelize.OpenReader(bytes.NewReader(data), excelize.Options{UnzipSizeLimit: maxUnpacked, UnzipXMLSizeLimit: maxUnpacked})
	if err != nil {
		return nil, schedule.Faults{*fault(name, "a file that cannot be read as a workbook ("+plainText(err)+")", "a workbook (.xlsx) without a password")}
	}
	return f, nil
}

// fill takes the cells of a sheet: their values, not how they are shown, which
// may be rounded; save for per cent, where 0.5 is meant and shown as 50 %. Rows
// are streamed: the library's whole model of a sheet grows with its emptiness.
func fill(s *schedule.Sheet, f *excelize.File, title string) *schedule.Fault {
	if why := stream(s, f, title, true); why != nil {
		return why
	}
	if !s.Headed() { // then it is not read any further
		return nil
	}
	as := &schedule.Sheet{Place: s.Place}
	if why := stream(as, f, title, false); why != nil {
		return why
	}
	shown := as.Rows
	for i, row := range s.Rows {
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
func stream(s *schedule.Sheet, f *excelize.File, title string, raw bool) *schedule.Fault {
	return eachRow(f, title, s.Place, raw, func(row []string) *schedule.Fault { return s.Add(schedule.Trimmed(row)) })
}

// eachRow hands on the rows of a sheet, as they are stored or as they are shown, until
// one is refused.
func eachRow(f *excelize.File, title, place string, raw bool, add func([]string) *schedule.Fault) *schedule.Fault {
	unreadable := func(place string, err error) *schedule.Fault {
		return fault(place, "cells that cannot be read ("+plainText(err)+")", "a workbook (.xlsx) that opens")
	}
	in, err := f.Rows(title)
	if err != nil {
		return unreadable(place, err)
	}
	defer in.Close() // only read from
	for number := 1; in.Next(); number++ {
		row, err := in.Columns(excelize.Options{RawCellValue: raw})
		if err != nil {
			return unreadable(fmt.Sprintf("%s, row %d", place, number), err)
		}
		if why := add(row); why != nil {
			return why
		}
	}
	if err := in.Error(); err != nil {
		return unreadable(place, err)
	}
	return nil
}

// plainText returns an error of the library in one line, and not too long.
func plainText(err error) string {
	text := schedule.Squeezed(err.Error())
	if quoted := unit.Quote(text); len(quoted) > 2 {
		return strings.TrimSuffix(strings.TrimPrefix(quoted, `"`), `"`)
	}
	return text
}

func fault(place, found, right string) *schedule.Fault {
	return &schedule.Fault{Place: place, Found: found, Right: right}
}
