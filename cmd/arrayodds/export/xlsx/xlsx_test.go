package xlsx

import (
	"archive/zip"
	"bytes"
	"encoding/xml"
	"errors"
	"io"
	"math"
	"slices"
	"strconv"
	"strings"
	"testing"

	"arrayodds/array/schedule/workbook"

	"github.com/xuri/excelize/v2"
)

// odd are texts that XML or a spreadsheet would take for something else.
var odd = []string{"=1+1", "+1", "<&\"'>]]>", " before", "behind ", "two\nlines", "a\ttab", "\r\n", "_x000D_", "_x005F_", "_x0041_x0042_", "__x0041_", "_x", "_x00G1_",
	"bell\a", "\x00", "ö ½ 漢 😀", "\uFFFE", "1", "", strings.Repeat("x", maxText)}

func sample() []Sheet {
	words := Sheet{Name: "Words & <such>", Columns: []Column{{"Text", "", 34}, {"Number", "#,##0", 16}}}
	for i, s := range odd {
		words.Rows = append(words.Rows, []any{s, i})
	}
	figures := Sheet{Name: "Figures", Columns: []Column{{"Label", "", 12.5}, {"Whole", "#,##0", 16}, {"Tenths", "#,##0.0", 16}, {"Chance", "0.00E+00", 16}, {"Share", "0.0%", 16}, {"Money", `"<€>" 0.00`, 20}}}
	for _, x := range []float64{0, 1, -1.5, 1234567.89, 4.7e-15, 1e21, 5e-324, math.MaxFloat64, 1.0 / 3} {
		figures.Rows = append(figures.Rows, []any{"row", 123456, x, x, x, x})
	}
	figures.Rows = append(figures.Rows, []any{nil, nil, nil, nil, nil, nil}, []any{"row", math.MinInt, 0.0, 0.0, 0.0, 0.0})
	wide := Sheet{Name: "Wide"}
	for range 800 {
		wide.Columns = append(wide.Columns, Column{Title: "Label", Width: 9})
	}
	return []Sheet{words, figures, wide}
}

func written(t *testing.T, sheets ...Sheet) []byte {
	t.Helper()
	var b bytes.Buffer
	if err := Write(&b, "who <made> it", sheets...); err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func opened(t *testing.T, data []byte) *excelize.File {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
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

// TestReadByLibrary: a library that knows all of a workbook finds every cell, of its
// type, with its value to the last bit.
func TestReadByLibrary(t *testing.T) {
	f := opened(t, written(t, sample()...))
	var names []string
	for _, s := range sample() {
		names = append(names, s.Name)
		for i, c := range s.Columns {
			name, err := excelize.ColumnNumberToName(i + 1)
			if err != nil {
				t.Fatal(err)
			}
			if name != letters(i) {
				t.Fatalf("column %d is %s, want %s", i, letters(i), name)
			}
			if width, err := f.GetColWidth(s.Name, name); err != nil || width != c.Width {
				t.Errorf("%s, column %s: %v wide (%v), want %v", s.Name, name, width, err, c.Width)
			}
			if title, err := f.GetCellValue(s.Name, name+"1"); err != nil || title != c.Title {
				t.Errorf("%s, column %s is called %q (%v), want %q", s.Name, name, title, err, c.Title)
			}
			for j, row := range s.Rows {
				checkCell(t, f, s.Name, name+strconv.Itoa(j+2), row[i], c.Format)
			}
		}
		panes, err := f.GetPanes(s.Name)
		if err != nil || !panes.Freeze || panes.YSplit != 1 || panes.XSplit != 0 || panes.TopLeftCell != "A2" || panes.ActivePane != "bottomLeft" {
			t.Errorf("%s: %+v (%v)", s.Name, panes, err)
		}
	}
	if got := f.GetSheetList(); !slices.Equal(got, names) || f.GetActiveSheetIndex() != 0 {
		t.Errorf("sheets %q, the one shown is %d", got, f.GetActiveSheetIndex())
	}
	props, err := f.GetDocProps()
	if err != nil || props.Creator != "who <made> it" || props.Created != "" || props.Modified != "" {
		t.Errorf("%+v (%v)", props, err)
	}
}

func checkCell(t *testing.T, f *excelize.File, sheet, at string, want any, format string) {
	t.Helper()
	raw, err := f.GetCellValue(sheet, at, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	kind, err := f.GetCellType(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	number := true
	switch want := want.(type) {
	case nil:
		number = raw == ""
	case string:
		number = true
		if raw != want || kind != excelize.CellTypeSharedString {
			t.Errorf("%s, %s: %.60q of type %v, want %.60q", sheet, at, raw, kind, want)
		}
	case int:
		number = raw == strconv.Itoa(want) && kind == excelize.CellTypeUnset
	case float64:
		x, err := strconv.ParseFloat(raw, 64)
		number = err == nil && x == want && kind == excelize.CellTypeUnset
	}
	if !number {
		t.Errorf("%s, %s: %q of type %v, want %v", sheet, at, raw, kind, want)
	}
	if formula, err := f.GetCellFormula(sheet, at); err != nil || formula != "" {
		t.Errorf("%s, %s: formula %q (%v)", sheet, at, formula, err)
	}
	id, err := f.GetCellStyle(sheet, at)
	if err != nil {
		t.Fatal(err)
	}
	style, err := f.GetStyle(id)
	if err != nil {
		t.Fatal(err)
	}
	got := ""
	if style.CustomNumFmt != nil {
		got = *style.CustomNumFmt
	}
	if got != format || style.Alignment == nil || style.Alignment.Vertical != "top" || style.Alignment.WrapText != (format == "") {
		t.Errorf("%s, %s: %+v with number format %q, want %q", sheet, at, style.Alignment, got, format)
	}
}

func TestHeadingIsBold(t *testing.T) {
	f := opened(t, written(t, sample()...))
	for at, bold := range map[string]bool{"A1": true, "D1": true, "A2": false, "D2": false} {
		id, err := f.GetCellStyle("Figures", at)
		if err != nil {
			t.Fatal(err)
		}
		style, err := f.GetStyle(id)
		if err != nil || (style.Font != nil && style.Font.Bold) != bold || bold && !style.Alignment.WrapText {
			t.Errorf("%s: %+v (%v)", at, style, err)
		}
	}
}

// TestReadBack: what is written is read by the reader of schedules and records, too.
func TestReadBack(t *testing.T) {
	tables, err := workbook.Tables(written(t, sample()...), "s.xlsx", "")
	if err != nil {
		t.Fatal(err)
	}
	for i, s := range sample() {
		if tables[i].Title != s.Name || len(tables[i].Rows) != len(s.Rows)+1 {
			t.Fatalf("sheet %q of %d rows", tables[i].Title, len(tables[i].Rows))
		}
	}
	for i, want := range odd {
		if got := tables[0].Rows[i+1][0]; got != want {
			t.Errorf("%.60q, want %.60q", got, want)
		}
	}
}

// TestParts: each part is well-formed XML, is of a known type, and has no time.
func TestParts(t *testing.T) {
	z, err := zip.NewReader(bytes.NewReader(written(t, sample()...)), int64(len(written(t, sample()...))))
	if err != nil {
		t.Fatal(err)
	}
	parts := map[string]string{}
	for _, part := range z.File {
		if !part.Modified.IsZero() && part.Modified.Year() > 1980 {
			t.Errorf("%s is of %v", part.Name, part.Modified)
		}
		in, err := part.Open()
		if err != nil {
			t.Fatal(err)
		}
		text, err := io.ReadAll(in)
		if err != nil {
			t.Fatal(err)
		}
		parts[part.Name] = string(text)
		for d := xml.NewDecoder(bytes.NewReader(text)); ; {
			if _, err := d.Token(); errors.Is(err, io.EOF) {
				break
			} else if err != nil {
				t.Fatalf("%s: %v", part.Name, err)
			}
		}
	}
	for name := range parts {
		if strings.HasSuffix(name, ".rels") || name == "[Content_Types].xml" {
			continue
		}
		if !strings.Contains(parts["[Content_Types].xml"], `PartName="/`+name+`"`) {
			t.Errorf("%s is of no type", name)
		}
		if !strings.Contains(parts["_rels/.rels"]+parts["xl/_rels/workbook.xml.rels"], `Target="`+strings.TrimPrefix(name, "xl/")+`"`) && !strings.Contains(parts["_rels/.rels"], `Target="`+name+`"`) {
			t.Errorf("no part refers to %s", name)
		}
	}
}

func TestSameBytes(t *testing.T) {
	if !bytes.Equal(written(t, sample()...), written(t, sample()...)) {
		t.Error("the same sheets gave two workbooks")
	}
}

// A text is cut where a cell ends, not within a character.
func TestLongText(t *testing.T) {
	for _, c := range []struct {
		unit string
		want int
	}{{"x", maxText}, {"ö", maxText}, {"漢", maxText}, {"😀", maxText / 2}} {
		if got := cut(strings.Repeat(c.unit, maxText+9)); got != strings.Repeat(c.unit, c.want) {
			t.Errorf("%s: cut to %d bytes", c.unit, len(got))
		}
	}
}

func TestNoCell(t *testing.T) {
	for _, v := range []any{math.NaN(), math.Inf(1), math.Inf(-1), true, int64(1), []string{}} {
		err := Write(io.Discard, "", Sheet{Name: "S", Columns: []Column{{"A", "", 9}, {"B", "0", 9}}, Rows: [][]any{{"a", v}}})
		if err == nil || !strings.HasPrefix(err.Error(), "sheet S: B: no cell for ") {
			t.Errorf("%v: %v", v, err)
		}
	}
}
