package record

import (
	"bytes"
	"errors"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"github.com/xuri/excelize/v2"

	"arrayodds/array"
	"arrayodds/array/schedule/workbook"
)

// days returns the hours between two days, by the library's calendar.
func days(t *testing.T, from, to string) float64 {
	t.Helper()
	a, err := time.Parse(time.DateOnly, from)
	if err != nil {
		t.Fatal(err)
	}
	b, err := time.Parse(time.DateOnly, to)
	if err != nil {
		t.Fatal(err)
	}
	return b.Sub(a).Hours()
}

// messyFleets is what testdata/messy.csv says, watched until the end of 2025.
func messyFleets(t *testing.T) []array.Fleet {
	return []array.Fleet{
		{Label: "12 TB", Drives: []array.Observed{
			{Hours: days(t, "2020-05-06", "2025-12-31")},
			{Hours: days(t, "2020-05-07", "2024-09-30"), Failed: true},
			{Hours: days(t, "2021-01-01", "2025-12-31")},
		}},
		{Label: "8 TB", Drives: []array.Observed{
			{Hours: days(t, "2019-03-04", "2022-07-19"), Failed: true},
			{Hours: days(t, "2019-03-04", "2025-12-31")},
			{Hours: days(t, "2019-04-15", "2023-01-02"), Failed: true},
			{Hours: days(t, "2019-11-06", "2021-02-03")},
		}},
	}
}

// A record as a spreadsheet exports it: the day first, times, blank rows, remarks.
func TestMessyRecord(t *testing.T) {
	data, err := os.ReadFile("testdata/messy.csv")
	if err != nil {
		t.Fatal(err)
	}
	got := sorted(read(t, string(data), until("2025-12-31"))) // those with one reading come first
	ended := map[float64]bool{}
	for i := range got.Fleets {
		f := &got.Fleets[i]
		if len(f.Ends) != len(f.Drives) {
			t.Fatalf("%d days for %d drives", len(f.Ends), len(f.Drives))
		}
		for _, day := range f.Ends {
			ended[float64(day)] = true
		}
		f.Ends = nil // in another order than the drives, which were sorted
	}
	if !ended[days(t, "1970-01-01", "2022-07-19")/24] || !ended[days(t, "1970-01-01", "2025-12-31")/24] {
		t.Errorf("watching ended on %v", ended)
	}
	for i, want := range sorted(Record{Fleets: messyFleets(t)}).Fleets {
		want.Notes = []string{`Dates are read with the day first, as "19.07.2022" (removed, line 2) can be nothing else.`}
		if !reflect.DeepEqual(got.Fleets[i], want) {
			t.Errorf("%+v\nwant\n%+v", got.Fleets[i], want)
		}
	}
}

// TestDateForms: the forms of a date, with each other and alone.
func TestDateForms(t *testing.T) {
	const head = "installed,removed,failed\n"
	for _, c := range []struct{ rows, from, to, note string }{
		{"2020-05-03,2021-12-31,no", "2020-05-03", "2021-12-31", ""},
		{"2020/05/03,2021.12.31,no", "2020-05-03", "2021-12-31", ""},
		{"03.05.2020,31.12.2021,no", "2020-05-03", "2021-12-31", `the day first, as "31.12.2021" (removed, line 2)`},
		{"3.5.2020,31-12-2021,no", "2020-05-03", "2021-12-31", `the day first, as "31-12-2021" (removed, line 2)`},
		{"05/03/2020,12/31/2021,no", "2020-05-03", "2021-12-31", `the month first, as "12/31/2021" (removed, line 2)`},
		{"05.05.2020,12.12.2021,no", "2020-05-05", "2021-12-12", ""}, // both ways round the same
		{"2020-05-03,01.02.2021,no\n2020-05-03,28.02.2021,no", "2020-05-03", "2021-02-01", `the day first, as "28.02.2021" (removed, line 3)`},
		{"2020-05-03 00:00,2021-12-31 00:00:00,no", "2020-05-03", "2021-12-31", ""},
	} {
		got := read(t, head+c.rows+"\n", Options{})
		f := got.Fleets[0]
		if want := days(t, c.from, c.to); f.Drives[0].Hours != want && f.Drives[len(f.Drives)-1].Hours != want {
			t.Errorf("%s: %+v, want %v h", c.rows, f.Drives, want)
		}
		if notes := strings.Join(f.Notes, "|"); (notes == "") != (c.note == "") || !strings.Contains(notes, c.note) {
			t.Errorf("%s: noted %q, want %q", c.rows, notes, c.note)
		}
	}
}

// sheets hands the sheets of a workbook to the reader.
func sheets(data []byte, name string) ([]Sheet, error) {
	tables, err := workbook.Tables(data, name, "the record alone")
	var all []Sheet
	for _, t := range tables {
		all = append(all, Sheet(t))
	}
	return all, err
}

// book returns a workbook with these sheets, in this order.
func book(t *testing.T, date1904 bool, titles []string, rows map[string][][]any) []byte {
	t.Helper()
	f := excelize.NewFile()
	defer f.Close()
	check := func(err error) {
		if err != nil {
			t.Fatal(err)
		}
	}
	check(f.SetWorkbookProps(&excelize.WorkbookPropsOptions{Date1904: &date1904}))
	for _, title := range titles {
		_, err := f.NewSheet(title)
		check(err)
		for i, row := range rows[title] {
			cell, err := excelize.CoordinatesToCellName(1, i+1)
			check(err)
			check(f.SetSheetRow(title, cell, &row))
		}
	}
	check(f.DeleteSheet("Sheet1"))
	b, err := f.WriteToBuffer()
	check(err)
	return b.Bytes()
}

// TestWorkbook: the messy record again, as a workbook: dates that it counts, a title,
// another sheet before. That its dates are those of the calendar is the library's word,
// which made them of times.
func TestWorkbook(t *testing.T) {
	at := func(y, m, d int) time.Time { return time.Date(y, time.Month(m), d, 0, 0, 0, 0, time.UTC) }
	rows := map[string][][]any{
		"Read me": {{"What this is"}, {"drives of both halls"}},
		"Drives": {
			{"Drives of both halls"}, nil,
			{"Nr", "Model", "Installed", "Removed", "Failed", "Remarks"},
			{1, "8 TB", at(2019, 3, 4), at(2022, 7, 19), true, "clicking\nreplaced"},
			{2, "8 TB", at(2019, 3, 4), nil, "no", nil},
			{3, "8 TB", at(2019, 4, 15), at(2023, 1, 2), "YES", "\"new\""},
			{4, "8 TB", at(2019, 11, 6), "2021-02-03", "no", "moved; elsewhere"},
			nil,
			{5, "12 TB", at(2020, 5, 6), nil, 0, nil},
			{6, "12 TB", at(2020, 5, 7), at(2024, 9, 30), 1, "firmware"},
			{7, "12 TB", at(2021, 1, 1), nil, false, nil},
		},
	}
	opt := until("2025-12-31")
	opt.Workbook = sheets
	titles := []string{"Read me", "Drives"}
	got, err := Read(t.Context(), bytes.NewReader(book(t, false, titles, rows)), "fleet.xlsx", opt)
	if err != nil {
		t.Fatal(err)
	}
	for i := range got.Fleets {
		got.Fleets[i].Ends = nil // as TestMessyRecord has it
	}
	if want := messyFleets(t); !reflect.DeepEqual(got.Fleets, want) {
		t.Errorf("%+v\nwant\n%+v", got.Fleets, want)
	}
	// Places are those of the sheet.
	rows["Drives"][6][2] = "soon"
	_, err = Read(t.Context(), bytes.NewReader(book(t, false, titles, rows)), "fleet.xlsx", opt)
	if want := `fleet.xlsx, sheet "Drives":7: installed: found "soon"; right would be a date`; err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Errorf("%v\nwant\n%s", err, want)
	}
	// Without a sheet that is a record, with a workbook that is none, and with nobody to read it.
	delete(rows, "Drives")
	_, err = Read(t.Context(), bytes.NewReader(book(t, false, titles, rows)), "fleet.xlsx", opt)
	if want := `fleet.xlsx, sheet "Read me":1: found "what_this_is" as headings; right would be drive_days, failures; or`; err == nil || !strings.HasPrefix(err.Error(), want) {
		t.Errorf("%v\nwant\n%s", err, want)
	}
	_, err = Read(t.Context(), bytes.NewReader(book(t, false, titles, rows)), "fleet.xlsx", Options{})
	if errs, ok := errors.AsType[Errors](err); !ok || !strings.Contains(errs.Error(), "a workbook, which cannot be read here") {
		t.Errorf("%v", err)
	}
}

// TestDatesFrom1904: day 0 of such a workbook is 1904-01-01, 1462 days after that of
// others: ECMA-376 part 1, 18.17.4.1.
func TestDatesFrom1904(t *testing.T) {
	for _, since1904 := range []bool{false, true} {
		installed := 43894.0 // 2020-03-04
		if since1904 {
			installed -= 1462
		}
		rows := map[string][][]any{"S": {{"installed", "removed", "failed"}, {installed, "2021-03-04", "no"}}}
		got, err := Read(t.Context(), bytes.NewReader(book(t, since1904, []string{"S"}, rows)), "s.xlsx", Options{Workbook: sheets})
		if err != nil {
			t.Fatal(err)
		}
		if h := got.Fleets[0].Drives[0].Hours; h != 365*24 {
			t.Errorf("from 1904 %v: %v h", since1904, h)
		}
	}
}

// Numbers of a workbook that are no ages count as they stand.
func TestWorkbookOfAges(t *testing.T) {
	rows := map[string][][]any{"S": {{"hours", "failed", "label"}, {5000.5, 1, "a"}, {6000, 0, "a"}}}
	got, err := Read(t.Context(), bytes.NewReader(book(t, false, []string{"S"}, rows)), "s.xlsx", Options{Workbook: sheets})
	if err != nil {
		t.Fatal(err)
	}
	if want := []array.Observed{{Hours: 5000.5, Failed: true}, {Hours: 6000}}; !reflect.DeepEqual(got.Fleets[0].Drives, want) {
		t.Errorf("%+v", got.Fleets)
	}
}

// Daily snapshots in a workbook have the days that it counts.
func TestWorkbookOfSnapshots(t *testing.T) {
	rows := map[string][][]any{"S": {{"date", "serial_number", "model", "capacity_bytes", "failure"},
		{time.Date(2025, 1, 1, 0, 0, 0, 0, time.UTC), "A1", "12 TB", 12e12, 0}, {"2025-01-02", "A1", "12 TB", 12e12, 1}}}
	got, err := Read(t.Context(), bytes.NewReader(book(t, false, []string{"S"}, rows)), "s.xlsx", Options{Workbook: sheets})
	if err != nil {
		t.Fatal(err)
	}
	if want := []array.Observed{{Hours: 48, Failed: true}}; !reflect.DeepEqual(got.Fleets[0].Drives, want) {
		t.Errorf("%+v", got.Fleets)
	}
}
