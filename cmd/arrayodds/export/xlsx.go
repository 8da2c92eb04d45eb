package export

import (
	"fmt"
	"io"
	"math"

	"github.com/xuri/excelize/v2"
)

// writeXLSX writes sheets as a workbook, in their order. Figures are numbers with a
// number format, so that they can be sorted and reckoned with; words are never
// formulas.
func writeXLSX(w io.Writer, sheets ...sheet) (err error) {
	book, err := newWorkbook(sheets[0].name)
	if err != nil {
		return err
	}
	defer func() {
		if e := book.Close(); err == nil {
			err = e
		}
	}()
	for _, s := range sheets {
		if err := book.add(s); err != nil {
			return fmt.Errorf("sheet %s: %w", s.name, err)
		}
	}
	return book.Write(w)
}

// workbook is an excelize file with the styles that it has given out so far.
type workbook struct {
	*excelize.File
	styles  map[string]int // by number format
	heading int
}

// newWorkbook returns a workbook of one sheet, which is empty.
func newWorkbook(first string) (*workbook, error) {
	b := &workbook{File: excelize.NewFile(), styles: map[string]int{}}
	if err := b.SetSheetName(b.GetSheetName(0), first); err != nil {
		return nil, err
	}
	if err := b.SetDocProps(&excelize.DocProperties{Creator: "arrayodds"}); err != nil {
		return nil, err
	}
	var err error
	b.heading, err = b.NewStyle(&excelize.Style{
		Font:      &excelize.Font{Bold: true},
		Alignment: &excelize.Alignment{WrapText: true, Vertical: "top"},
	})
	return b, err
}

// style returns the cell style of a column, made once for each number format.
func (b *workbook) style(f cellFormat) (int, error) {
	if id, ok := b.styles[f.number]; ok {
		return id, nil
	}
	s := &excelize.Style{Alignment: &excelize.Alignment{Vertical: "top"}}
	if f.number == "" {
		s.Alignment.WrapText = true
	} else {
		s.CustomNumFmt = &f.number
	}
	id, err := b.NewStyle(s)
	b.styles[f.number] = id
	return id, err
}

// add writes a sheet, its heading frozen.
func (b *workbook) add(s sheet) error {
	if _, err := b.NewSheet(s.name); err != nil { // the sheet itself where it is there
		return err
	}
	for i, h := range s.heads {
		if err := b.cell(s.name, i+1, 1, h.title, b.heading); err != nil {
			return err
		}
		letter, err := excelize.ColumnNumberToName(i + 1)
		if err != nil {
			return err
		}
		if err := b.SetColWidth(s.name, letter, letter, h.format.width); err != nil {
			return err
		}
		style, err := b.style(h.format)
		if err != nil {
			return err
		}
		for j, row := range s.rows {
			if err := b.cell(s.name, i+1, j+2, row[i], style); err != nil {
				return fmt.Errorf("%s: %w", h.title, err)
			}
		}
	}
	return b.SetPanes(s.name, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"})
}

func (b *workbook) cell(sheet string, column, row int, v any, style int) error {
	at, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		return err
	}
	switch v := v.(type) {
	case nil:
	case string:
		err = b.SetCellStr(sheet, at, v)
	case int:
		err = b.SetCellInt(sheet, at, int64(v))
	case float64:
		if math.IsNaN(v) {
			break
		}
		if err = finite(v); err == nil {
			err = b.SetCellFloat(sheet, at, tidy(v), -1, 64)
		}
	default:
		err = fmt.Errorf("no cell for a %T", v)
	}
	if err != nil {
		return err
	}
	return b.SetCellStyle(sheet, at, at, style)
}
