package schedule

import (
	"errors"
	"os"
	"reflect"
	"slices"
	"strings"
	"testing"
)

const plain = `Camera schedule, revision 2,,,,,,
,,,,,,
Count,Location,IP address,Retention (days),Bitrate [Mbit/s],Activity %,Hours/day
24,Ramps,10.0.0.1,30,6,100,24
18,"Hall, tills",10.0.0.2,"30,5","4,5",70,18 h
42,Subtotal,,,,,
,,,,,,
14,Car park,10.0.0.3,2 w,3000 kbit/s,45,
56,TOTAL:,,,237,,
`

func cells(t *testing.T, s *Schedule) []map[string]string {
	t.Helper()
	var all []map[string]string
	for _, r := range s.Rows {
		m := map[string]string{}
		for k, c := range r.Cells {
			m[k] = c.Text
		}
		all = append(all, m)
	}
	return all
}

var plainRows = []map[string]string{
	{"count": "24", "label": "Ramps", "retention": "30 days", "bitrate": "6 Mbit/s", "activity": "100 %", "hours_per_day": "24"},
	{"count": "18", "label": "Hall, tills", "retention": "30.5 days", "bitrate": "4.5 Mbit/s", "activity": "70 %", "hours_per_day": "18"},
	{"count": "14", "label": "Car park", "retention": "2 w", "bitrate": "3000 kbit/s", "activity": "45 %"},
}

func TestCSV(t *testing.T) {
	// What stands in quotes has commas of its own.
	semicolons := strings.NewReplacer("\"30,5\"", "30,5", "\"4,5\"", "4,5", "\"Hall, tills\"", "Hall, tills", "schedule, r", "schedule, r", ",", ";").Replace(plain)
	for name, in := range map[string]string{
		"commas": plain, "semicolons": semicolons, "tabs": strings.ReplaceAll(semicolons, ";", "\t"),
		"CRLF and a mark": "\ufeff" + strings.ReplaceAll(plain, "\n", "\r\n"),
	} {
		s, err := Read([]byte(in), "schedule.csv", nil)
		if err != nil {
			t.Errorf("%s: %v", name, err)
			continue
		}
		if got := cells(t, s); !reflect.DeepEqual(got, plainRows) {
			t.Errorf("%s: %v", name, got)
		}
		if len(s.Unread) != 1 || s.Unread[0] != (Note{"schedule.csv, cell C3", "IP address"}) {
			t.Errorf("%s: unread %v", name, s.Unread)
		}
		if len(s.Notes) != 2 || s.Notes[0].Place != "schedule.csv, row 6" || s.Notes[1].Place != "schedule.csv, row 9" {
			t.Errorf("%s: skipped %v", name, s.Notes)
		}
		if c := s.Rows[2].Cells["bitrate"]; c.Place != "schedule.csv, cell E8" || s.Rows[2].Place != "schedule.csv, row 8" {
			t.Errorf("%s: %+v in %s", name, c, s.Rows[2].Place)
		}
	}
}

// Rows are those that a spreadsheet shows: blank lines are rows, a line end in
// quotes is none.
func TestRowsOfCSV(t *testing.T) {
	s, err := Read([]byte("\n\nlabel,count,x\n\"a\nb\",1,\n\nc,2,\n"), "s.csv", nil)
	if err != nil {
		t.Fatal(err)
	}
	if s.Rows[0].Place != "s.csv, row 4" || s.Rows[1].Place != "s.csv, row 6" {
		t.Errorf("%+v", s.Rows)
	}
}

func TestHeadings(t *testing.T) {
	for text, want := range map[string]heading{
		"Bitrate (Mbit/s)": {key: "bitrate", unit: "Mbit/s"}, "bit rate [kbit/s]": {key: "bitrate", unit: "kbit/s"}, "Bitrate Mbps": {key: "bitrate", unit: "Mbps"},
		"retention_days": {key: "retention", unit: "days"}, "Retention, d": {key: "retention", unit: "d"}, "Retention (as agreed)": {key: "retention", unit: ""},
		"HOURS_PER_DAY": {key: "hours_per_day", unit: ""}, "Qty:": {key: "count", unit: ""}, "Activity (%)": {key: "activity", unit: "%"}, "bitrate (MB/s)": {key: "bitrate", unit: ""},
		"frames_per_second": {key: "frames_per_second", unit: ""}, "Resolution (MP)": {key: "resolution", unit: "MP"}, "Frame rate (fps)": {key: "frames_per_second", unit: ""},
	} {
		if got, ok := readHeading(text); !ok || got != want {
			t.Errorf("%q is %+v, %v", text, got, ok)
		}
	}
	for _, text := range []string{"", "IP address", "total bitrate", "storage TB", "retention policy", strings.Repeat("label ", 1000)} {
		if got, ok := readHeading(text); ok {
			t.Errorf("%q is %+v", text, got)
		}
	}
}

func TestNumbers(t *testing.T) {
	for _, c := range []struct {
		text   string
		commas bool
		want   string // empty: refused
	}{
		{"6", false, "6"}, {"6,5", false, "6.5"}, {"6.5", true, "6.5"}, {"0,125", false, "0.125"}, {"1,25", false, "1.25"},
		{"1,500", false, ""}, {"1.500", false, "1.500"}, {"1.500", true, ""}, {"1,500", true, ""}, {"1.234,5", false, "1234.5"}, {"1,234.5", false, "1234.5"},
		{"1,234,567", false, "1234567"}, {"1.234.567", true, "1234567"}, {"12,34,5", false, ""}, {"1,23.4", false, ""}, {"6,5 Mbit/s", false, "6.5 Mbit/s"},
		{"2560x1440", false, "2560x1440"}, {"1 in 3", false, "1 in 3"}, {"1,500 kbit/s", false, ""},
	} {
		got, why := pointed(c.text, c.commas)
		if got != c.want || (why != nil) != (c.want == "") {
			t.Errorf("%q is %q, %v", c.text, got, why)
		}
	}
}

// Headings as schedules have them: common practice, no source.
func TestHeadingVariants(t *testing.T) {
	for text, want := range map[string]heading{
		"Qty.": {key: "count"}, "QTY": {key: "count"}, "No. of cameras": {key: "count"}, "# of cameras": {key: "count"}, "Location": {key: "label"}, "Floor": {key: "label"},
		"Hours / day": {key: "hours_per_day"}, "Hrs/day": {key: "hours_per_day"}, "Recording (h/day)": {key: "hours_per_day", unit: "h/day"}, "Rec. hours": {key: "hours_per_day"},
		"Res.": {key: "resolution"}, "Sensor (MP)": {key: "resolution", unit: "MP"}, "Megapixels": {key: "resolution", unit: "MP"},
		"FPS": {key: "frames_per_second"}, "Frame rate [ips]": {key: "frames_per_second"}, "Images per second": {key: "frames_per_second"},
		"Bitrate (Mbps)": {key: "bitrate", unit: "Mbps"}, "BITRATE (Kbps)": {key: "bitrate", unit: "kbit/s"}, "Avg. bitrate in Mbit/s": {key: "bitrate", unit: "Mbit/s"},
		"Stream (MBit/s)": {key: "bitrate", unit: "Mbit/s"}, "Max. bitrate (Mbps)": {key: "bitrate", unit: "Mbps", lesser: true}, "Bitrate (MBPS)": {key: "bitrate"},
		"Retention (days)": {key: "retention", unit: "days"}, "Storage (days)": {key: "retention", unit: "days"}, "Days of retention": {key: "retention", unit: "days"}, "Days": {key: "retention", unit: "days"},
		"Motion %": {key: "activity", unit: "%"}, "% motion": {key: "activity", unit: "%"}, "Events [%]": {key: "activity", unit: "%"}, "Compression": {key: "codec"},
		"Width (px)": {key: "width"}, "Retention* ": {key: "retention"}, "Description": {key: "label", lesser: true},
	} {
		if got, ok := readHeading(text); !ok || got != want {
			t.Errorf("%q is %+v, %v, want %+v", text, got, ok, want)
		}
	}
	for _, text := range []string{"No.", "Nr", "#", "Camera model", "Height (m)", "Storage (TB)", "Recording", "Total bandwidth", "Recording mode"} {
		if got, ok := readHeading(text); ok {
			t.Errorf("%q is %+v", text, got)
		}
	}
	for _, text := range []string{"Camera model", "Total bitrate", "Max. bitrate", "Recording", "Qty", "Recorder (new)"} {
		if !Known(text) {
			t.Errorf("%q is taken for a slip of the pen", text)
		}
	}
	if Known("Bitrates") {
		t.Error("a misspelt heading is known")
	}
}

// A schedule as spreadsheets export it, with everything in it that is no group.
func TestMessySchedule(t *testing.T) {
	data, err := os.ReadFile("testdata/messy.csv")
	if err != nil {
		t.Fatal(err)
	}
	s, err := Read(data, "messy.csv", nil)
	if err != nil {
		t.Fatal(err)
	}
	want := []map[string]string{
		{"label": "Main, Entrance*", "count": "4", "resolution": "Full HD", "frames_per_second": "12.5", "codec": "H.264", "bitrate": "4096 kbit/s", "hours_per_day": "24", "activity": "100 %", "retention": "30 days"},
		{"label": "Main, Stairs", "count": "6", "resolution": "4 MP", "frames_per_second": "10", "codec": "H.265", "hours_per_day": "12", "activity": "60 %", "retention": "30 days"},
		{"label": "Annex, Workshop", "count": "3", "resolution": "4K", "frames_per_second": "10", "codec": "H.265", "hours_per_day": "24", "activity": "40 %", "retention": "14 days"},
		{"label": "Annex, Yard", "count": "2", "resolution": "5 MP (2592 x 1944)", "frames_per_second": "8", "codec": "H.265", "bitrate": "6144.5 kbit/s", "hours_per_day": "24", "activity": "100 %", "retention": "4 weeks"},
	}
	if got := cells(t, s); !reflect.DeepEqual(got, want) {
		t.Errorf("%v\nwant\n%v", got, want)
	}
	wantNotes := []Note{
		{"messy.csv, cell L6", "stands beneath no heading: not read, like all that does"},
		{"messy.csv, row 9", `"Zwischensumme", a total: not read`},
		{"messy.csv, row 12", `"Total général :", a total: not read`},
		{"messy.csv, row 13", `"15", a total: not read`},
		{"messy.csv, row 14", `"celkem", a total: not read`},
		{"messy.csv, row 16", `"* measured over one day", no group: not read`},
		{"messy.csv, row 17", `"Note: the annex is built next year", no group: not read`},
		{"messy.csv, row 18", `"Retention was agreed with the school", no group: not read`},
	}
	if !slices.Equal(s.Notes, wantNotes) {
		t.Errorf("noted %q", s.Notes)
	}
	if !slices.Equal(s.Unread, []Note{{"messy.csv, cell C4", "Camera model"}}) {
		t.Errorf("unread %q", s.Unread)
	}
}

// Totals in other languages: common words, from memory, no source.
func TestTotalsOfOtherLanguages(t *testing.T) {
	for _, word := range []string{"Total", "TOTAL:", "Summe", "Gesamt", "total général", "Totale", "celkem", "Razem", "Összesen", "ИТОГО", "Yhteensä", "Σ"} {
		s, err := Read([]byte("label,count,bitrate,retention\nGate,2,6 Mbit/s,30 d\n"+word+",2,,\n"), "s.csv", nil)
		if err != nil {
			t.Fatal(err)
		}
		if len(s.Rows) != 1 || len(s.Notes) != 1 {
			t.Errorf("%s: %+v", word, s)
		}
	}
	// Places that only begin like one.
	for _, label := range []string{"Summer house", "Gesamtschule", "Sumava", "Totaler", "Kokkupea"} {
		s, err := Read([]byte("label,count,bitrate,retention\n"+label+",2,,\n"), "s.csv", nil)
		if err != nil || len(s.Rows) != 1 {
			t.Errorf("%s: %+v, %v", label, s, err)
		}
	}
}

// What may be a group with something missing stays one, so that it is missed.
func TestIncompleteGroups(t *testing.T) {
	s, err := Read([]byte("label,count,bitrate,retention\nGate,,,\nHall,2,1 Mbit/s,3 d\nYard,,,\n,3,,\n,2,1 Mbit/s,3 d\n"), "s.csv", nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Rows) != 5 || s.Notes != nil {
		t.Errorf("%+v", s)
	}
}

// Of several columns for one key the better one counts; labels are put together.
func TestSeveralColumns(t *testing.T) {
	s, err := Read([]byte("Floor,Room,Description,Qty,Max. bitrate (Mbps),Bitrate (Mbps),Retention (days),Height\n1,Hall,dome,2,8,4,30,3.5\n"), "s.csv", nil)
	if err != nil {
		t.Fatal(err)
	}
	if c := s.Rows[0].Cells; c["label"].Text != "1, Hall" || c["bitrate"].Text != "4 Mbps" || len(s.Unread) != 3 {
		t.Errorf("%+v %+v", c, s.Unread)
	}
	s, err = Read([]byte("Description,Qty,Max. bitrate (Mbps),Retention (days)\ndome,2,8,30\n"), "s.csv", nil)
	if err != nil {
		t.Fatal(err)
	}
	if c := s.Rows[0].Cells; c["label"].Text != "dome" || c["bitrate"].Text != "8 Mbps" || len(s.Unread) != 0 {
		t.Errorf("%+v %+v", c, s.Unread)
	}
}

// A place is called Total street: with all that a group needs it is one.
func TestTotals(t *testing.T) {
	s, err := Read([]byte("label,count,bitrate,retention\nTotal street,2,6 Mbit/s,30 d\nTotal of all,2,,\nSummer house,1,1 Mbit/s,2 d\ngrand total,9,6 Mbit/s,30 d\n"), "s.csv", nil)
	if err != nil {
		t.Fatal(err)
	}
	if len(s.Rows) != 2 || len(s.Notes) != 2 {
		t.Errorf("%+v", s)
	}
}

func TestFaults(t *testing.T) {
	for name, c := range map[string]struct{ file, in, want string }{
		"no headings":  {"s.csv", "a,b\nc,d\n", "s.csv: found no row of headings"},
		"nothing":      {"s.csv", "", "s.csv: found no row of headings"},
		"no rows":      {"s.csv", "label,count\n\nTotal,\n", "s.csv: found no group of cameras"},
		"twice":        {"s.csv", "label,count,bitrate,bit rate\na,1,2,3\n", `s.csv, cell D1: bitrate: found "bit rate", which column C is already`},
		"not UTF-8":    {"s.csv", "label,count\n\xff,1\n", "s.csv: found a text that is not UTF-8"},
		"stray quotes": {"s.csv", "label,count\na\"b,1\n", "s.csv, line 2: found bare"},
		"NUL":          {"s.csv", "label,count\nGate,4\nHa\x00ll,2\n", "s.csv, line 3: found a NUL character; right would be text without it"},
		"UTF-16":       {"s.csv", "l\x00a\x00b\x00e\x00l\x00,\x00c\x00o\x00u\x00n\x00t\x00", "s.csv: found a text that is not UTF-8"},
		"ending":       {"s.ods", "", "neither .csv nor .xlsx"},
		"a workbook":   {"s.xlsx", "PK", "s.xlsx: found a workbook, which cannot be read here; right would be a schedule saved as CSV"},
		"rows":         {"s.csv", "label,count\n" + strings.Repeat("a,1\n", maxRows), "more than 10000 rows"},
		"columns":      {"s.csv", "label,count" + strings.Repeat(",", 300) + "\n", "s.csv, row 1: found 302 columns"},
	} {
		_, err := Read([]byte(c.in), c.file, nil)
		var faults Faults
		if !errors.As(err, &faults) || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%s: %v", name, err)
		}
	}
}

func TestFaultOfOneCell(t *testing.T) {
	s, err := Read([]byte("label,count,bitrate (kbit/s)\na,1,\"1,500\"\n"), "s.csv", nil)
	if err != nil {
		t.Fatal(err)
	}
	const want = `s.csv, cell C2: bitrate: found "1,500", which may have thousands or decimals; right would be "1500" or "1.5"`
	if why := s.Rows[0].Cells["bitrate"].Fault; why == nil || why.Error() != want {
		t.Errorf("%v", why)
	}
}

func TestLetters(t *testing.T) {
	for n, want := range map[int]string{0: "A", 25: "Z", 26: "AA", 51: "AZ", 52: "BA", 701: "ZZ", 702: "AAA"} {
		if got := letters(n); got != want {
			t.Errorf("%d is %s", n, got)
		}
	}
}
