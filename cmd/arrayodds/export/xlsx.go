package export

import (
	"fmt"
	"io"
	"math"

	"arrayodds/cmd/arrayodds/export/xlsx"
)

// writeXLSX writes sheets as a workbook, in their order. Figures are numbers with a
// number format, so that they can be sorted and reckoned with; words are never
// formulas.
func writeXLSX(w io.Writer, sheets ...sheet) error {
	var all []xlsx.Sheet
	for _, s := range sheets {
		out := xlsx.Sheet{Name: s.name}
		for _, h := range s.heads {
			out.Columns = append(out.Columns, xlsx.Column{Title: h.title, Format: h.format.number, Width: h.format.width})
		}
		for _, row := range s.rows {
			cells := make([]any, len(row))
			for i, v := range row {
				var err error
				if cells[i], err = xlsxCell(v); err != nil {
					return fmt.Errorf("sheet %s: %s: %w", s.name, s.heads[i].title, err)
				}
			}
			out.Rows = append(out.Rows, cells)
		}
		all = append(all, out)
	}
	return xlsx.Write(w, "arrayodds", all...)
}

// xlsxCell returns a cell as a workbook has it, nil for what is not known.
func xlsxCell(v any) (any, error) {
	x, ok := v.(float64)
	switch {
	case !ok:
		return v, nil
	case math.IsNaN(x):
		return nil, nil
	}
	return tidy(x), finite(x)
}
