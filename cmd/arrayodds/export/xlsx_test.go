package export

import (
	"bytes"
	"slices"
	"strconv"
	"testing"

	"arrayodds/sim/study"

	"github.com/xuri/excelize/v2"
)

// reopened writes the workbook and reads it back.
func reopened(t *testing.T, r study.Comparison) *excelize.File {
	t.Helper()
	var b bytes.Buffer
	if err := compareXLSX(&b, r); err != nil {
		t.Fatal(err)
	}
	f, err := excelize.OpenReader(&b)
	if err != nil {
		t.Fatal(err)
	}
	t.Cleanup(func() {
		if err := f.Close(); err != nil {
			t.Error(err)
		}
	})
	return f
}

func TestXLSXSheets(t *testing.T) {
	f := reopened(t, sample())
	if got, want := f.GetSheetList(), []string{"Choices", "Loss over the years", "Assumptions", "About"}; !slices.Equal(got, want) {
		t.Fatalf("sheets %q, want %q", got, want)
	}
	for sheet, want := range map[string]int{"Choices": 2, "Loss over the years": 4, "Assumptions": 2, "About": 6 + len(study.Cautions(sample().Site, sample().Choices(), false))} {
		rows, err := f.GetRows(sheet)
		if err != nil {
			t.Fatal(err)
		}
		if len(rows)-1 != want {
			t.Errorf("%s has %d rows beneath its heading, want %d", sheet, len(rows)-1, want)
		}
		panes, err := f.GetPanes(sheet)
		if err != nil {
			t.Fatal(err)
		}
		if !panes.Freeze || panes.YSplit != 1 {
			t.Errorf("%s: the heading is not frozen: %+v", sheet, panes)
		}
		width, err := f.GetColWidth(sheet, "A")
		if err != nil || width != wideWords.width {
			t.Errorf("%s: first column %v wide, %v", sheet, width, err)
		}
	}
}

func TestXLSXCells(t *testing.T) {
	r := sample()
	f := reopened(t, r)
	all := outcomeColumns(r.Site)
	at := func(name string, row int) string {
		i := slices.IndexFunc(all, func(c column[study.Outcome]) bool { return c.name == name })
		cell, err := excelize.CoordinatesToCellName(i+1, row)
		if err != nil {
			t.Fatal(err)
		}
		return cell
	}
	raw := func(cell string) string {
		v, err := f.GetCellValue("Choices", cell, excelize.Options{RawCellValue: true})
		if err != nil {
			t.Fatal(err)
		}
		return v
	}
	for _, c := range []struct {
		name   string
		row    int
		number float64
		shown  string
	}{
		{"usable_TB", 2, 72, "72.0"},
		{"retention_days", 2, 41.2, "41.2"},
		{"loss_chance", 2, 4.7e-15, "4.70E-15"},
		{"loss_chance_high", 2, 4.9e-15, "4.90E-15"},
		{"purchase_cost", 3, 2690, "2,690"},
		{"trials", 2, 123456, "123,456"},
	} {
		cell := at(c.name, c.row)
		x, err := strconv.ParseFloat(raw(cell), 64)
		if err != nil || x != c.number {
			t.Errorf("%s holds %v (%v), want %v", c.name, x, err, c.number)
		}
		if shown, err := f.GetCellValue("Choices", cell); err != nil || shown != c.shown {
			t.Errorf("%s shows %q (%v), want %q", c.name, shown, err, c.shown)
		}
		if kind, err := f.GetCellType("Choices", cell); err != nil || (kind != excelize.CellTypeUnset && kind != excelize.CellTypeNumber) {
			t.Errorf("%s is of type %v (%v), not a number", c.name, kind, err)
		}
	}
	for name, row := range map[string]int{"purchase_cost": 2, "power_W": 3, "exact_loss_chance": 3, "textbook_loss_chance": 2} {
		if v := raw(at(name, row)); v != "" {
			t.Errorf("%s in row %d is not known, and holds %q", name, row, v)
		}
	}
}

func TestXLSXHasNoFormulas(t *testing.T) {
	f := reopened(t, sample())
	for sheet, cell := range map[string]string{"Choices": "A2", "Loss over the years": "A2", "Assumptions": "B2"} {
		formula, err := f.GetCellFormula(sheet, cell)
		if err != nil || formula != "" {
			t.Errorf("%s!%s is the formula %q (%v)", sheet, cell, formula, err)
		}
		if v, err := f.GetCellValue(sheet, cell); err != nil || v == "" || v[0] != '=' {
			t.Errorf("%s!%s holds %q (%v), want the words as they are", sheet, cell, v, err)
		}
		if kind, err := f.GetCellType(sheet, cell); err != nil || kind != excelize.CellTypeSharedString {
			t.Errorf("%s!%s is of type %v (%v), not words", sheet, cell, kind, err)
		}
	}
}

func TestXLSXSameBytes(t *testing.T) {
	var a, b bytes.Buffer
	if err := compareXLSX(&a, sample()); err != nil {
		t.Fatal(err)
	}
	if err := compareXLSX(&b, sample()); err != nil {
		t.Fatal(err)
	}
	if !bytes.Equal(a.Bytes(), b.Bytes()) {
		t.Error("the same report gave two workbooks")
	}
}
