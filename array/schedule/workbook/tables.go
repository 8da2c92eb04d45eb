package workbook

import (
	"fmt"
	"slices"

	"arrayodds/array/schedule"
	"arrayodds/array/unit"
)

// Table is a sheet as it stands: the values of its cells, not how they are shown.
type Table struct {
	Title    string
	Rows     [][]string
	Date1904 bool // dates count from 1904-01-01 and not from 1899-12-30
}

// Bounds of tables, beside those of a workbook.
const (
	maxTableRows  = 100_000 // of all sheets
	maxTableCells = 1_000_000
)

// Tables reads all sheets of a workbook; name is what places are called by, and alone
// says what would be right where the workbook is beyond its bounds. The error is of type
// [schedule.Faults].
func Tables(data []byte, name, alone string) ([]Table, error) {
	b, err := open(data, name, alone)
	if err != nil {
		return nil, err
	}
	var all []Table
	rows, cells := 0, 0
	stored := func(c cell) string { return c.text }
	for _, part := range b.sheets {
		t := Table{Title: part.title, Date1904: b.date1904}
		place := fmt.Sprintf("%s, sheet %s", name, unit.Quote(part.title))
		_, why := b.eachRow(part, place, stored, func(row []string) *schedule.Fault {
			row = slices.Clone(schedule.Trimmed(row))
			t.Rows = append(t.Rows, row)
			rows, cells = rows+1, cells+len(row)
			if rows > maxTableRows || cells > maxTableCells {
				return fault(place, fmt.Sprintf("more than %d rows or %d cells, empty ones that have a format counted", maxTableRows, maxTableCells), alone)
			}
			return nil
		})
		if why != nil {
			return nil, schedule.Faults{*why}
		}
		all = append(all, t)
	}
	return all, nil
}
