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
	if len(s.Rows) != 3 || len(s.Notes) != 2 || len(s.Unread) != 1 {
		t.Errorf("%+v %+v", s.Notes, s.Unread)
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

// A number that is kept as a text, such as that of an asset, keeps all its digits.
func TestLongNumberAsText(t *testing.T) {
	const asset = "40012345678901234567"
	s, err := Read(workbook(t, map[string][][]any{"S": {{"label", "count", "bitrate"}, {asset, 4, "6.1 Mbit/s"}}}, nil), "s.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	if got := s.Rows[0].Cells["label"].Text; got != asset {
		t.Errorf("%s, want %s", got, asset)
	}
}

func TestOtherSheetsAreListed(t *testing.T) {
	rows := [][]any{{"label", "count"}, {"Gate", 4}}
	s, err := Read(workbook(t, map[string][][]any{"A": rows, "B": rows}, nil), "s.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Rows) != 1 || len(s.Notes) != 1 {
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

// A schedule as planners make them: merged cells down and across, two rows of
// headings, a row of units, a part's heading, totals and footnotes.
func TestMessyWorkbook(t *testing.T) {
	rows := [][]any{
		{"Mill Lane school, cameras", nil, nil, nil, nil, nil, nil, nil, nil},
		nil,
		{"Building", "Location", "Qty.", "Picture", nil, nil, "Recording", nil, "Remarks"},
		{nil, nil, nil, "Res.", "FPS", "Compression", "Hours / day", "Retention", nil},
		{nil, nil, "(pcs)", nil, nil, nil, "(h)", "(days)", nil},
		{"School", nil, nil, nil, nil, nil, nil, nil, nil},
		{"Main", "Entrance", 4, "4K", 12.5, "H.265", 24, 30, "see plan"},
		{nil, "Stairs", 6, "1080p", nil, nil, 12, nil, nil},
		{nil, nil, nil, nil, nil, nil, nil, nil, nil}, // the lower half of a row of double height
		{nil, "Roof", 1, "QHD", nil, nil, 24, nil, nil},
		{"Annex", nil, 2, "5 MP", 8, "H.264", 24, 14, nil},
		{nil, nil, 3, "Full HD", 10, "H.264", 24, 14, nil},
		{"Totale", nil, 16, nil, nil, nil, nil, nil, nil},
		nil,
		{"Built in two parts", nil, nil, nil, nil, nil, nil, nil, nil},
	}
	data := workbook(t, map[string][][]any{"Cameras": rows}, func(f *excelize.File) {
		for _, r := range [][2]string{{"A1", "I1"}, {"A3", "A4"}, {"B3", "B4"}, {"C3", "C4"}, {"I3", "I4"}, {"D3", "F3"}, {"G3", "H3"}, {"A6", "I6"},
			{"A7", "A10"}, {"E7", "E10"}, {"F7", "F10"}, {"H7", "H10"}, {"B8", "B9"}, {"C8", "C9"}, {"D8", "D9"}, {"G8", "G9"}, {"A11", "A12"}} {
			if err := f.MergeCell("Cameras", r[0], r[1]); err != nil {
				t.Fatal(err)
			}
		}
	})
	s, err := Read(data, "plan.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	want := []map[string]string{
		{"label": "Main, Entrance", "count": "4", "resolution": "4K", "frames_per_second": "12.5", "codec": "H.265", "hours_per_day": "24", "retention": "30 days"},
		{"label": "Main, Stairs", "count": "6", "resolution": "1080p", "frames_per_second": "12.5", "codec": "H.265", "hours_per_day": "12", "retention": "30 days"},
		{"label": "Main, Roof", "count": "1", "resolution": "QHD", "frames_per_second": "12.5", "codec": "H.265", "hours_per_day": "24", "retention": "30 days"},
		{"label": "Annex", "count": "2", "resolution": "5 MP", "frames_per_second": "8", "codec": "H.264", "hours_per_day": "24", "retention": "14 days"},
		{"label": "Annex 2", "count": "3", "resolution": "Full HD", "frames_per_second": "10", "codec": "H.264", "hours_per_day": "24", "retention": "14 days"},
	}
	var got []map[string]string
	for _, r := range s.Rows {
		m := map[string]string{}
		for k, c := range r.Cells {
			if c.Fault != nil {
				t.Error(c.Fault)
			}
			m[k] = c.Text
		}
		got = append(got, m)
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%v\nwant\n%v", got, want)
	}
	// The value stands where the merged cells begin.
	if c := s.Rows[1].Cells["retention"]; c.Place != `plan.xlsx, sheet "Cameras", cell H7` {
		t.Errorf("%+v", c)
	}
	var notes []string
	for _, n := range s.Notes {
		notes = append(notes, strings.TrimPrefix(n.Place, `plan.xlsx, sheet "Cameras", `)+": "+n.Text)
	}
	wantNotes := []string{
		`row 6: "School", no group: not read`,
		`cell A7: "Main", merged down to row 10: taken for each of its rows`,
		`cell E7: "12.5", merged down to row 10: taken for each of its rows`,
		`cell F7: "H.265", merged down to row 10: taken for each of its rows`,
		`cell H7: "30", merged down to row 10: taken for each of its rows`,
		`cell A11: "Annex", merged down to row 12: taken for each of its rows`,
		`row 13: "Totale", a total: not read`,
		`row 15: "Built in two parts", no group: not read`,
	}
	if !reflect.DeepEqual(notes, wantNotes) {
		t.Errorf("noted %q", notes)
	}
	if len(s.Unread) != 1 || s.Unread[0].Text != "Remarks" {
		t.Errorf("unread %q", s.Unread)
	}
}

// How many cameras each of several rows has, one number for all of them does not say.
func TestMergedNumberOfCameras(t *testing.T) {
	rows := [][]any{{"label", "count", "bitrate Mbit/s", "retention d"}, {"Gate", 4, 6, 30}, {"Hall", nil, 4, 30}}
	s, err := Read(workbook(t, map[string][][]any{"S": rows}, func(f *excelize.File) {
		if err := f.MergeCell("S", "B2", "B3"); err != nil {
			t.Fatal(err)
		}
	}), "s.xlsx")
	if err != nil {
		t.Fatal(err)
	}
	const want = `s.xlsx, sheet "S", cell B2: count: found "4", merged over rows 2 to 3; right would be a number of cameras in each row`
	if why := s.Rows[0].Cells["count"].Fault; why == nil || why.Error() != want {
		t.Errorf("%v", why)
	}
	if why := s.Rows[1].Cells["count"].Fault; why != nil {
		t.Errorf("a second time: %v", why)
	}
}

// Merged cells without end, or that overlap, take no more time than others.
func TestManyMergedCells(t *testing.T) {
	refs := func(n int, ref func(int) string) string {
		var b strings.Builder
		for i := range n {
			b.WriteString(`<mergeCell ref="` + ref(i) + `"/>`)
		}
		return b.String()
	}
	head := `<row r="1"><c r="A1" t="inlineStr"><is><t>label</t></is></c><c r="B1" t="inlineStr"><is><t>count</t></is></c></row>`
	for i := 2; i <= 3000; i++ {
		head += fmt.Sprintf(`<row r="%d"><c r="B%d"><v>1</v></c></row>`, i, i)
	}
	for name, c := range map[string]struct{ merged, want string }{
		"too many": {refs(maxMerged+1, func(int) string { return "A2:A3" }), "more than 10000 merged cells"},
		"overlap":  {refs(maxMerged, func(i int) string { return fmt.Sprintf("A%d:XFD1048576", i%3000+1) }), ""},
		"nonsense": {refs(10, func(int) string { return "XFE1:ZZZ9999999" }), ""},
	} {
		data := packedRest(t, head, `<mergeCells>`+c.merged+`</mergeCells>`, "", "")
		s, err := Read(data, "s.xlsx")
		if c.want == "" && (err != nil || len(s.Rows) != 2999) || c.want != "" && (err == nil || !strings.Contains(err.Error(), c.want)) {
			t.Errorf("%s: %v", name, err)
		}
	}
}
