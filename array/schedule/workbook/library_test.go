package workbook

import (
	"bytes"
	"fmt"
	"strconv"
	"strings"
	"testing"
	"time"

	"arrayodds/array/schedule"

	"github.com/xuri/excelize/v2"
)

// byLibrary returns the rows of a sheet by a library that reads all of a workbook: as
// they are stored, and as meant, by how the library shows them.
func byLibrary(t *testing.T, data []byte, sheet string) (stored, meant [][]string) {
	t.Helper()
	f, err := excelize.OpenReader(bytes.NewReader(data))
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	stored, err = f.GetRows(sheet, excelize.Options{RawCellValue: true})
	if err != nil {
		t.Fatal(err)
	}
	shown, err := f.GetRows(sheet)
	if err != nil {
		t.Fatal(err)
	}
	for i, row := range stored {
		stored[i] = schedule.Trimmed(row)
		var all []string
		for j, v := range stored[i] {
			if x, err := strconv.ParseFloat(v, 64); err == nil {
				if strings.HasSuffix(strings.TrimSpace(shown[i][j]), "%") && !strings.HasSuffix(v, "%") {
					v = strconv.FormatFloat(100*x, 'g', 13, 64) + " %"
				} else if len(v) > 15 {
					v = strconv.FormatFloat(x, 'g', 15, 64)
				}
			}
			all = append(all, v)
		}
		meant = append(meant, all)
	}
	return stored, meant
}

// here returns the same as it is read here.
func here(t *testing.T, data []byte, sheet string) (asStored, asMeant [][]string) {
	t.Helper()
	b, err := open(data, "s.xlsx", "")
	if err != nil {
		t.Fatal(err)
	}
	for _, part := range b.sheets {
		if part.title != sheet {
			continue
		}
		for _, c := range []struct {
			text func(cell) string
			rows *[][]string
		}{{func(c cell) string { return c.text }, &asStored}, {meant, &asMeant}} {
			if _, why := b.eachRow(part, "s", c.text, func(row []string) *schedule.Fault {
				*c.rows = append(*c.rows, append([]string(nil), schedule.Trimmed(row)...))
				return nil
			}); why != nil {
				t.Fatal(why)
			}
		}
	}
	return asStored, asMeant
}

// agree fails where a sheet is not read here as by the library.
func agree(t *testing.T, data []byte, sheet string) [][]string {
	t.Helper()
	wantStored, wantMeant := byLibrary(t, data, sheet)
	gotStored, gotMeant := here(t, data, sheet)
	for _, c := range []struct {
		as        string
		got, want [][]string
	}{{"stored", gotStored, wantStored}, {"meant", gotMeant, wantMeant}} {
		if len(c.got) != len(c.want) {
			t.Errorf("%s: %d rows, the library has %d", c.as, len(c.got), len(c.want))
			continue
		}
		for i := range c.got {
			if len(c.got[i]) != len(c.want[i]) {
				t.Errorf("row %d, as %s: %d cells, the library has %d", i+1, c.as, len(c.got[i]), len(c.want[i]))
				continue
			}
			for j, got := range c.got[i] {
				if want := c.want[i][j]; got != want {
					t.Errorf("row %d, cell %d, as %s: %q, the library has %q", i+1, j+1, c.as, got, want)
				}
			}
		}
	}
	return gotMeant
}

// TestNumberFormats: values of all kinds under every built-in number format and many
// made ones, those of dates, times and per cent among them. Conditions and a section for
// zero are not among them, which the library does not heed.
func TestNumberFormats(t *testing.T) {
	values := []any{0, 0.5, -0.25, 1, 1.5, 45000, 45000.75, 0.75, 1e-9, 123456789.0, 6.1 * 3, 0.1 + 0.2, "0.5", "70 %", "Gate", true, false,
		time.Date(2025, 3, 4, 0, 0, 0, 0, time.UTC), time.Date(2025, 3, 4, 17, 45, 30, 0, time.UTC), 90 * time.Minute}
	formats := []string{"0%", "0.0 %", "0.0%;[Red]-0.0%", "0;0%", "0%;0", "[Red]0.00%", "0.00", "#,##0 \"h\"",
		"yyyy-mm-dd", "dd/mm/yyyy hh:mm", "[h]:mm", "hh:mm:ss", "[$-407]d. mmmm yyyy", "General", "@", "0.0E+00", "# ?/?", "0_%", "0*%", "_-0%_-", "\"up to \"0%"}
	data := workbook(t, map[string][][]any{"S": nil}, func(f *excelize.File) {
		column := 0
		put := func(style *excelize.Style) {
			column++
			id, err := f.NewStyle(style)
			if err != nil {
				t.Fatal(err)
			}
			for i, v := range values {
				at, err := excelize.CoordinatesToCellName(column, i+1)
				if err != nil {
					t.Fatal(err)
				}
				if err := f.SetCellValue("S", at, v); err != nil {
					t.Fatal(err)
				}
				if err := f.SetCellStyle("S", at, at, id); err != nil {
					t.Fatal(err)
				}
			}
		}
		for i := range 50 {
			put(&excelize.Style{NumFmt: i})
		}
		for _, code := range formats {
			put(&excelize.Style{CustomNumFmt: &code})
		}
	})
	rows := agree(t, data, "S")
	for i, row := range rows {
		if len(row) != 50+len(formats) {
			t.Errorf("row %d has %d cells", i+1, len(row))
		}
	}
	// What is meant, of some: it is stored as days and parts of a day.
	for _, c := range []struct {
		row, column int
		want        string
	}{{1, 9, "50 %"}, {1, 1, "0.5"}, {2, 10, "-25 %"}, {17, 14, "45720"}, {18, 22, "45720.7399305556"}, {19, 46, "0.0625"}, {12, 9, "0.5"}} {
		if got := rows[c.row][c.column]; got != c.want {
			t.Errorf("%v under format %d is %q, want %q", values[c.row], c.column, got, c.want)
		}
	}
}

// TestTexts: texts that are shared, in runs or their own, with what XML would lose.
func TestTexts(t *testing.T) {
	rows := [][]any{
		{" before", "behind ", "two\nlines", "a\ttab", "<&\"'>", "_x000D_", "_x005F_", "_x", "ö ½ 漢 😀", "bell\aand\x01", ""},
		nil,
		{nil, nil, 3, nil, "apart"},
		{1, 2.5, true, nil, "12 TB"},
	}
	data := workbook(t, map[string][][]any{"S": rows, "A second one": {{"x"}}}, func(f *excelize.File) {
		check := func(err error) {
			if err != nil {
				t.Fatal(err)
			}
		}
		check(f.SetCellRichText("S", "B6", []excelize.RichTextRun{{Text: "in "}, {Text: "runs", Font: &excelize.Font{Bold: true}}, {Text: " _x0009_"}}))
		check(f.SetCellFormula("S", "C6", "1+1"))
		check(f.SetRowVisible("S", 4, false))
		check(f.SetColVisible("S", "B", false))
		check(f.MergeCell("S", "A8", "C9"))
		check(f.SetCellValue("S", "A8", "merged"))
	})
	got := agree(t, data, "S")
	agree(t, data, "A second one")
	if got[0][5] != "\r" || got[3][4] != "12 TB" || got[5][1] == "" || got[7][0] != "merged" {
		t.Errorf("%q", got)
	}
}

// TestInlineTexts: a sheet that was streamed has its texts in the cells.
func TestInlineTexts(t *testing.T) {
	f := excelize.NewFile()
	defer f.Close()
	s, err := f.NewStreamWriter("Sheet1")
	if err != nil {
		t.Fatal(err)
	}
	for i := range 30 {
		row := []any{fmt.Sprint(" row ", i), i, nil, 0.1 * float64(i), []excelize.RichTextRun{{Text: "a"}, {Text: "b"}}}
		if err := s.SetRow(fmt.Sprintf("B%d", 1+2*i), row); err != nil {
			t.Fatal(err)
		}
	}
	if err := s.Flush(); err != nil {
		t.Fatal(err)
	}
	b, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	if got := agree(t, b.Bytes(), "Sheet1"); len(got) != 59 || got[58][5] != "ab" {
		t.Errorf("%d rows, the last %q", len(got), got[len(got)-1])
	}
}
