package workbook

import (
	"fmt"
	"strconv"
	"strings"

	"arrayodds/array/schedule"
	"arrayodds/array/unit"
)

// Read reads a workbook; name is what places are called by. The error, of type
// [schedule.Faults], is of the form of the file.
func Read(data []byte, name string) (*schedule.Schedule, error) {
	b, err := open(data, name, "a workbook with the schedule alone")
	if err != nil {
		return nil, err
	}
	var read *schedule.Sheet
	var others []schedule.Note
	var faults schedule.Faults
	for _, part := range b.sheets {
		s := &schedule.Sheet{Place: fmt.Sprintf("%s, sheet %s", name, unit.Quote(part.title))}
		if read != nil {
			others = append(others, schedule.Note{Place: s.Place, Text: "not read: an earlier sheet has headings"})
			continue
		}
		var why *schedule.Fault
		if s.Merged, why = b.eachRow(part, s.Place, meant, s.Add); why != nil {
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

// digitsKept is the digits that spreadsheets keep of a number.
const digitsKept = 15

// meant returns the value of a cell, not how it is shown, which may be rounded; save for
// per cent, where 0.5 is meant and shown as 50 %. A text stays as it is, the digits of a
// long number too.
func meant(c cell) string {
	x, err := strconv.ParseFloat(c.text, 64)
	switch {
	case err != nil || !c.number:
	case percent(c.format, x):
		return strconv.FormatFloat(100*x, 'g', 13, 64) + " %"
	case len(c.text) > digitsKept: // 6.1 is stored as 6.0999999999999996
		return strconv.FormatFloat(x, 'g', digitsKept, 64)
	}
	return c.text
}

// plainText returns an error of XML in one line, and not too long.
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
