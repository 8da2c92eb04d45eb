package workbook

import (
	"errors"
	"fmt"
	"reflect"
	"strings"
	"testing"

	"arrayodds/array/schedule"

	"github.com/xuri/excelize/v2"
)

// workbook makes an XLSX file; each sheet is rows of values.
func workbook(t testing.TB, sheets map[string][][]any, style func(*excelize.File)) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	for name, rows := range sheets {
		if _, err := f.NewSheet(name); err != nil {
			t.Fatal(err)
		}
		for i, row := range rows {
			if err := f.SetSheetRow(name, fmt.Sprintf("A%d", i+1), &row); err != nil {
				t.Fatal(err)
			}
		}
	}
	if style != nil {
		style(f)
	}
	b, err := f.WriteToBuffer()
	if err != nil {
		t.Fatal(err)
	}
	return b.Bytes()
}

func TestXLSX(t *testing.T) {
	rows := [][]any{
		{"Camera schedule, revision 2"},
		nil,
		{"Count", "Location", "IP address", "Retention (days)", "Bitrate [Mbit/s]", "Activity", "Hours/day"},
		{24, "Ramps", "10.0.0.1", 30, 6, 1, 24},
		{18, "Hall, tills", "10.0.0.2", 30.5, "4,5", "70 %", "18 h"},
		{42, "Subtotal"},
		nil,
		{14, "Car park", "10.0.0.3", "2 w", "3000 kbit/s", 0.45},
		{56, "TOTAL:", nil, nil, 237},
	}
	data := workbook(t, map[string][][]any{"Cameras": rows}, func(f *excelize.File) {
		style, err := f.NewStyle(&excelize.Style{NumFmt: 9}) // 0 %
		if err != nil {
			t.Fatal(err)
		}
		if err := f.SetCellStyle("Cameras", "F4", "F9", style); err != nil {
			t.Fatal(err)
		}
		round, err := f.NewStyle(&excelize.Style{NumFmt: 1}) // no decimals: 30.5 is shown as 31
		if err != nil {
			t.Fatal(err)
		}
		if err := f.SetCellStyle("Cameras", "D4", "D9", round); err != nil {
			t.Fatal(err)
		}
	})
	s, err := Read(data, "schedule.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	for i, want := range []map[string]string{
		{"count": "24", "label": "Ramps", "retention": "30 days", "bitrate": "6 Mbit/s", "activity": "100 %", "hours_per_day": "24"},
		{"count": "18", "label": "Hall, tills", "retention": "30.5 days", "bitrate": "4.5 Mbit/s", "activity": "70 %", "hours_per_day": "18"},
		{"count": "14", "label": "Car park", "retention": "2 w", "bitrate": "3000 kbit/s", "activity": "45 %"},
	} {
		got := map[string]string{}
		for k, c := range s.Rows[i].Cells {
			got[k] = c.Text
		}
		if !reflect.DeepEqual(got, want) {
			t.Errorf("row %d: %v", i+1, got)
		}
	}
	if c := s.Rows[2].Cells["bitrate"]; c.Place != `schedule.xlsx, sheet "Cameras", cell E8` {
		t.Errorf("%+v", c)
	}
	if len(s.Rows) != 3 || len(s.Skipped) != 2 || len(s.Unread) != 1 {
		t.Errorf("%+v %+v", s.Skipped, s.Unread)
	}
}

// Of a formula the value counts that the program which saved the file worked
// out.
func TestFormula(t *testing.T) {
	data := workbook(t, map[string][][]any{"S": {{"label", "count", "bitrate Mbit/s"}, {"Gate", 4, 6.1}}}, func(f *excelize.File) {
		if err := f.SetCellFormula("S", "B2", "2+2"); err != nil {
			t.Fatal(err)
		}
	})
	s, err := Read(data, "s.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	if c := s.Rows[0].Cells; c["count"].Text != "4" || c["bitrate"].Text != "6.1 Mbit/s" {
		t.Errorf("%+v", c)
	}
}

func TestOtherSheetsAreListed(t *testing.T) {
	rows := [][]any{{"label", "count"}, {"Gate", 4}}
	s, err := Read(workbook(t, map[string][][]any{"A": rows, "B": rows}, nil), "s.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Rows) != 1 || len(s.Skipped) != 1 {
		t.Errorf("%+v", s)
	}
}

func TestHugeWorkbookIsRefused(t *testing.T) {
	var rows [][]any
	for i := range 10_005 {
		rows = append(rows, []any{"a", i})
	}
	rows[0] = []any{"label", "count"}
	_, err := Read(workbook(t, map[string][][]any{"S": rows}, nil), "s.xlsx")
	if err == nil || !strings.Contains(err.Error(), "more than 10000 rows") {
		t.Errorf("%v", err)
	}
}

func TestNoWorkbook(t *testing.T) {
	_, err := Read([]byte("label,count\n"), "s.xlsx")
	var faults schedule.Faults
	if !errors.As(err, &faults) || !strings.Contains(err.Error(), "s.xlsx: found a file that is no workbook") {
		t.Errorf("%v", err)
	}
}
