package export

import (
	"cmp"
	"math"

	"arrayodds/sim/estimate"
)

// sheet is a table of words and figures, the same for CSV and for a workbook.
type sheet struct {
	name  string // in a workbook
	heads []head
	rows  [][]any // one cell a head: string, int, float64, or nil or NaN for what is not known
}

// head is what stands above a column, and how its cells are shown.
type head struct {
	name   string // in CSV, ending in the unit
	title  string // in a workbook, with the unit
	format cellFormat
}

// cellFormat is how a workbook shows the cells of a column.
type cellFormat struct {
	number string  // number format; empty for words
	width  float64 // in characters of the default font
}

// A chance runs over many decades, so it is shown with a power of ten.
var (
	words     = cellFormat{"", 16}
	wideWords = cellFormat{"", 34}
	longWords = cellFormat{"", 100}
	whole     = cellFormat{"#,##0", 16}
	tenths    = cellFormat{"#,##0.0", 16}
	hundred   = cellFormat{"#,##0.00", 16}
	chance    = cellFormat{"0.00E+00", 16}
)

// columns are the columns of a sheet with a row for each R, in their order. A new
// column is a new line that adds one.
type columns[R any] []column[R]

// column is a head with the cell that a row has below it.
type column[R any] struct {
	head
	cell func(R) any // or a bool
}

// add adds a column. Without a title it has its name in a workbook too.
func (c *columns[R]) add(name, title string, f cellFormat, cell func(R) any) {
	*c = append(*c, column[R]{head{name, cmp.Or(title, name), f}, cell})
}

// addEstimate adds three columns: a figure and the ends of its 95 % interval.
func (c *columns[R]) addEstimate(name, title string, f cellFormat, of func(R) estimate.Estimate) {
	title = cmp.Or(title, name)
	c.add(name, title, f, func(r R) any { return of(r).Value })
	c.add(name+"_low", title+", 95 % low", f, func(r R) any { return of(r).Low })
	c.add(name+"_high", title+", 95 % high", f, func(r R) any { return of(r).High })
}

// addRatio adds the three columns of a ratio. What is infinite is an empty cell.
func (c *columns[R]) addRatio(name, title string, f cellFormat, of func(R) estimate.Estimate) {
	c.addEstimate(name, title, f, func(r R) estimate.Estimate {
		e := of(r)
		for _, x := range []*float64{&e.Value, &e.Low, &e.High} {
			if math.IsInf(*x, 0) {
				*x = math.NaN()
			}
		}
		return e
	})
}

// sheet returns the sheet of these rows.
func (c columns[R]) sheet(name string, rows []R) sheet {
	s := sheet{name: name}
	for _, column := range c {
		s.heads = append(s.heads, column.head)
	}
	for _, r := range rows {
		cells := make([]any, len(c))
		for i, column := range c {
			cells[i] = column.cell(r)
			if b, ok := cells[i].(bool); ok {
				cells[i] = yesOrNo(b)
			}
		}
		s.rows = append(s.rows, cells)
	}
	return s
}

func yesOrNo(b bool) string {
	if b {
		return "yes"
	}
	return "no"
}
