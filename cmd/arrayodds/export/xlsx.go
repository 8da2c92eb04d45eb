package export

import (
	"fmt"
	"io"
	"math"

	"arrayodds/sim/study"

	"github.com/xuri/excelize/v2"
)

// The sheets of the workbook, in their order.
const (
	sheetChoices     = "Choices"
	sheetCurve       = "Loss over the years"
	sheetAssumptions = "Assumptions"
	sheetAbout       = "About"
)

// XLSX writes the report as a workbook. Figures are numbers with a format, so
// that they can be sorted and reckoned with; words are never formulas.
func XLSX(w io.Writer, r study.Comparison) (err error) {
	book, err := newWorkbook()
	if err != nil {
		return err
	}
	defer func() {
		if e := book.Close(); err == nil {
			err = e
		}
	}()
	for _, sheet := range []struct {
		name string
		fill func(study.Comparison) table
	}{
		{sheetChoices, choicesTable},
		{sheetCurve, curveTable},
		{sheetAssumptions, assumptionsTable},
		{sheetAbout, aboutTable},
	} {
		if err := book.add(sheet.name, sheet.fill(r)); err != nil {
			return fmt.Errorf("sheet %s: %w", sheet.name, err)
		}
	}
	return book.Write(w)
}

// table is what a sheet holds. Cells are string, int or float64; NaN is empty.
type table struct {
	heads []head
	rows  [][]any
}

type head struct {
	title string
	form  string // number format of the column; "" for words
	width float64
}

// workbook is an excelize file with the styles that it has given out so far.
type workbook struct {
	*excelize.File
	styles  map[string]int // by number format
	heading int
}

func newWorkbook() (*workbook, error) {
	b := &workbook{File: excelize.NewFile(), styles: map[string]int{}}
	if err := b.SetSheetName(b.GetSheetName(0), sheetChoices); err != nil {
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

// style is the cell style of a column, made once for each number format.
func (b *workbook) style(form string) (int, error) {
	if id, ok := b.styles[form]; ok {
		return id, nil
	}
	s := &excelize.Style{Alignment: &excelize.Alignment{Vertical: "top"}}
	if form == words {
		s.Alignment.WrapText = true
	} else {
		s.CustomNumFmt = &form
	}
	id, err := b.NewStyle(s)
	b.styles[form] = id
	return id, err
}

// add writes a table into a sheet of that name, its heading frozen.
func (b *workbook) add(sheet string, t table) error {
	if _, err := b.NewSheet(sheet); err != nil { // the sheet itself where it is there
		return err
	}
	for i, h := range t.heads {
		if err := b.cell(sheet, i+1, 1, h.title, b.heading); err != nil {
			return err
		}
		letter, err := excelize.ColumnNumberToName(i + 1)
		if err != nil {
			return err
		}
		if err := b.SetColWidth(sheet, letter, letter, h.width); err != nil {
			return err
		}
		style, err := b.style(h.form)
		if err != nil {
			return err
		}
		for j, row := range t.rows {
			if err := b.cell(sheet, i+1, j+2, row[i], style); err != nil {
				return fmt.Errorf("%s: %w", h.title, err)
			}
		}
	}
	return b.SetPanes(sheet, &excelize.Panes{Freeze: true, YSplit: 1, TopLeftCell: "A2", ActivePane: "bottomLeft"})
}

func (b *workbook) cell(sheet string, column, row int, v any, style int) error {
	at, err := excelize.CoordinatesToCellName(column, row)
	if err != nil {
		return err
	}
	switch v := v.(type) {
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
