package record

import (
	"bytes"
	"context"
	"errors"
	"fmt"
	"io/fs"
	"os"
	"strings"
	"testing"

	"arrayodds/array/thorough"
)

func TestRefuses(t *testing.T) {
	for _, c := range []struct {
		name, text string
		opt        Options
		want       []string // beginnings of the errors
	}{
		{"nothing", "", Options{}, []string{"x.csv: found nothing; right would be a row of headings"}},
		{"headings only", "hours,failed\n", Options{}, []string{"x.csv: found headings and nothing that counts below"}},
		{"other headings", "a;b\n1;2\n", Options{}, []string{`x.csv:1: found "a, b" as headings; right would be drive_days, failures; or hours, failed; or`}},
		{"a heading missing", "\nDate,model,failure,serial_number\n", Options{}, []string{"x.csv:2: found headings without capacity_bytes; right would be all of date, serial_number, model, capacity_bytes, failure (the form: daily snapshots)"}},
		{"two forms", "hours,failed,installed,removed\n", Options{}, []string{"x.csv:1: found the headings of two forms"}},
		{"a heading twice", "hours,failed,Hours\n", Options{}, []string{"x.csv:1: hours: found it twice"}},
		{"UTF-16", "\xff\xfeh\x00", Options{}, []string{"x.csv:1: found text in UTF-16"}},
		{"a decimal comma among commas", "hours,failed\n5,5,yes\n", Options{}, []string{"x.csv:2: found 3 cells; right would be 2, one for each heading"}},
		{"thousands", "hours;failed\n1.234,5;yes\n", Options{}, []string{`x.csv:2: hours: found "1.234,5"; right would be hours`}},
		{"all at once", "hours,failed,entered\n-1,yes,\n5,perhaps,\n5,1,5\nNaN,,x\n0,no,\n1e9,no,\n0x10,1,\n", Options{}, []string{
			`x.csv:2: hours: found "-1"`, `x.csv:3: failed: found "perhaps"; right would be yes or no`, `x.csv:4: entered: found "5"; right would be an age below that of hours, 5`,
			`x.csv:5: hours: found "NaN"`, `x.csv:5: failed: found nothing`, `x.csv:5: entered: found "x"`, `x.csv:6: hours: found "0"`, `x.csv:7: hours: found "1e9"`, `x.csv:8: hours: found "0x10"`}},
		{"sums", "drive_days,failures,age_from,age_to\n0,1,,\n10,1.5,,\n10,11,,\n10,1,2,1\n10,1,1,\n", Options{}, []string{
			`x.csv:2: drive_days: found "0"`, `x.csv:3: failures: found "1.5"`, `x.csv:4: failures: found "11"; right would be no more failures than drive-days`,
			`x.csv:5: age_to: found "1"; right would be an age above`, `x.csv:6: age_to: found nothing`}},
		{"sums from too far", "drive_days,failures,age_from,age_to\n10,1,200,1\n", Options{}, []string{`x.csv:2: age_from: found "200"; right would be an age in years`}},
		{"dates", "installed,removed,failed,observed_from\n2020-01-02,2020-01-01,no,\n2020-01-01,,yes,\n2020-01-01,,no,\n2020-01-01,,no,\n2020-01-01,2020-02-01,no,2020-02-01\n2020-13-01,2020-02-01,no,\n1980-01-01,2099-01-01,no,\n", Options{}, []string{
			`x.csv:2: removed: found "2020-01-01"; right would be a day not before that of installed, 2020-01-02`, `x.csv:3: removed: found nothing; right would be the day of the failure`,
			`x.csv:4: removed: found nothing; right would be a date or, as the drive still runs, the option --until with the last day of the record ... and 1 more row like it`,
			`x.csv:6: observed_from: found "2020-02-01"; right would be a day before that of removed`, `x.csv:7: installed: found "2020-13-01"`,
			`x.csv:8: installed: found "1980-01-01"; right would be a day at most 50 years before the last`}},
		{"until far away", "installed,removed,failed\n1990-01-01,,no\n1991-01-01,,no\n2040-01-01,-,no\n", until("2050-01-01"), []string{
			`x.csv:2: installed: found "1990-01-01"; right would be a day at most 50 years before that of --until, 2050-01-01, or an earlier --until`, `x.csv:3: installed: found "1991-01-01"`,
			`x.csv:4: removed: found "-"; right would be a date such as 2025-09-30, of the years 1980 to 2100; or nothing where the drive still runs, and --until with`}},
		{"dates that could be either", "installed,removed,failed\n03.05.2020,01.02.2021,no\n04.05.2020,05.05.2021,no\n05.06.2020,02.01.2021,no\n", Options{}, []string{
			`x.csv:2: installed: found "03.05.2020", of which either number may be the month, as of every date in this record; right would be 2020-05-03 or 2020-03-05, whichever is meant: the year first in all dates ... and 2 more rows like it`,
			`x.csv:2: removed: found "01.02.2021", of which either number may be the month, as of every date in this record; right would be 2021-02-01 or 2021-01-02, whichever is meant: the year first in all dates ... and 1 more row like it`}},
		{"dates in two orders", "installed,removed,failed\n13.05.2020,01.02.2021,no\n01/02/2020,05/31/2021,no\n", Options{}, []string{
			`x.csv:3: removed: found "05/31/2021", with the month first, where line 2 has "13.05.2020", with the day first; right would be one order in all dates`}},
		{"dates that are none", "installed,removed,failed\n31.02.2020,01.02.2021,no\n32.01.2020,,no\n13.13.2020,1.2.2021,no\n1.2.20,1.2.2021,no\n1.2-2020,1.2.2021,no\n30.06.2020,30.06.1970,no\n", until("2022-01-01"), []string{
			`x.csv:2: installed: found "31.02.2020"; right would be a date such as 2025-09-30`, `x.csv:3: installed: found "32.01.2020"`, `x.csv:4: installed: found "13.13.2020"`, `x.csv:5: installed: found "1.2.20"`, `x.csv:6: installed: found "1.2-2020"`,
			`x.csv:7: removed: found "30.06.1970"`}},
		{"dates not in the order that others have", "installed,removed,failed\n13.05.2020,01.02.2021,no\n30.06.2020,30.04.2020,no\n", Options{}, []string{
			`x.csv:3: removed: found "2020-04-30"; right would be a day not before that of installed, 2020-06-30`}},
		{"until without dates", "hours,failed\n5,1\n", until("2020-01-01"), []string{"x.csv: --until: found a day, and no dates in the record"}},
		{"until before everything", snaps("2025-01-01 a 0 24"), until("2024-01-01"), []string{"x.csv: --until: found 2024-01-01, before all that the record tells of; right would be a later day, or to leave it out"}},
		{"until before all drives", "installed,removed,failed\n2020-01-01,2020-02-01,yes\n", until("2019-12-31"), []string{"x.csv: --until: found 2019-12-31, before all that the record tells of"}},
		{"until that cannot be read, and another mistake", "installed,removed,failed\n2020-01-01,,no\n2020-01-01,,perhaps\n", Options{UntilUnknown: true}, []string{`x.csv:3: failed: found "perhaps"`}},
		{"NUL in quotes", "hours,failed,label\n\"5\x00\",1,a\n5,\"0\n\x00\",b\n", Options{}, []string{"x.csv:2: found a NUL character; right would be text without it ... and 1 more row like it"}},
		{"NUL", "hours,failed,label\n5\x00,1,a\n5,0,a\x00b\n", Options{}, []string{`x.csv:2: hours: found "5\x00"`, `x.csv:3: label: found "a\x00b"; right would be text in UTF-8, without NUL`}},
		{"blank rows", "hours,failed\n5,1\n" + strings.Repeat("\n", maxBlank+1), Options{}, []string{"x.csv:1000003: found more than 1000000 blank rows"}},
		{"blank rows alone", strings.Repeat("\n", maxBlank+1), Options{}, []string{"x.csv:1000001: found more than 1000000 blank rows"}},
		{"headings without end", "hours,failed" + strings.Repeat(",a", maxColumns), Options{}, []string{"x.csv:1: found 10002 headings; right would be at most 10000"}},
		{"snapshots at odds", snaps("2025-01-01 a 0 24", "2025-01-01 a 1 24", "2025-01-01 b 1 24", "2025-01-01 b 0 24"), Options{}, []string{
			`x.csv:3: failure: found "1"; right would be what a row above says`, `x.csv:5: failure: found "0"; right would be what a row above says`}},
		{"snapshots", "date,serial_number,model,capacity_bytes,failure,smart_9_raw\n2025-02-30,a,m,1,0,\n2025-02-01,,m,1,0,\n2025-02-01,a,,-1,0,\n2025-02-01,a,m,1,2,\n2025-02-01,a,m,1,0,x\n2025-02-01,a,\xff,1,0,\n", Options{}, []string{
			`x.csv:2: date: found "2025-02-30"`, `x.csv:3: serial_number: found nothing`, `x.csv:4: capacity_bytes: found "-1"`, `x.csv:5: failure: found "2"`, `x.csv:6: smart_9_raw: found "x"`, `x.csv:7: model: found "\xff"; right would be text in UTF-8`}},
		{"quotes", "hours,failed\n\"5\"x,1\n5,\"1\n6,1\n", Options{}, []string{`x.csv:2: found "x,1" after a closing quote`, "x.csv:3: found a quote that is opened and not closed"}},
		{"a damaged archive", "PK\x03\x04 and no more", Options{}, []string{"x.csv: found damaged data (zip: not a valid zip file)"}},
		{"a damaged gzip", "\x1f\x8b\x08\x00\x00\x00\x00\x00\x00\x00hours", Options{}, []string{"x.csv: found damaged data"}},
		{"a long row", "hours,failed\n5,1" + strings.Repeat(" ", maxRow) + "\n", Options{}, []string{"x.csv:2: found a row of more than 1048576 bytes"}},
	} {
		t.Run(c.name, func(t *testing.T) {
			_, err := Read(t.Context(), strings.NewReader(c.text), "x.csv", c.opt)
			errs, ok := errors.AsType[Errors](err)
			if !ok {
				t.Fatalf("%T %v", err, err)
			}
			for i := range max(len(errs), len(c.want)) {
				if i >= len(errs) || i >= len(c.want) || !strings.HasPrefix(errs[i].Error(), c.want[i]) {
					t.Fatalf("errors\n%v\nwant\n%s", err, strings.Join(c.want, "\n"))
				}
			}
		})
	}
}

// TestErrorsAreFolded: what is wrong in one way is said once, or a few times where it
// differs, with the rows that are like it.
func TestErrorsAreFolded(t *testing.T) {
	text := "hours,failed\n" + strings.Repeat("x,0\n", 1205) + "y,0\n1,maybe\n"
	for i := range 20 {
		text += fmt.Sprintf("z%d,0\n", i)
	}
	_, err := Read(t.Context(), strings.NewReader(text), "x.csv", Options{})
	const right = "; right would be hours, at least 0.001 and at most 438000 (50 years)"
	want := []string{`x.csv:2: hours: found "x"` + right + " ... and 1 204 more rows like it", `x.csv:1207: hours: found "y"` + right, `x.csv:1208: failed: found "maybe"; right would be yes or no, or 1 or 0`}
	for i := range 6 {
		want = append(want, fmt.Sprintf(`x.csv:%d: hours: found "z%d"%s`, 1209+i, i, right))
	}
	want[len(want)-1] += " ... and 14 more rows like it"
	if err == nil || err.Error() != strings.Join(want, "\n") {
		t.Errorf("%v\nwant\n%s", err, strings.Join(want, "\n"))
	}
}

func TestErrorsAreCut(t *testing.T) {
	text := "hours,failed\n" + strings.Repeat("x,0\n", maxRowsWrong+300)
	_, err := Read(t.Context(), strings.NewReader(text), "x.csv", Options{})
	errs, _ := errors.AsType[Errors](err)
	if len(errs) != 2 || errs[0].More != maxRowsWrong-1 || !strings.HasPrefix(errs[1].Error(), "x.csv:100002: found more errors; right would be to mend those above first: nothing was read beyond this") {
		t.Errorf("%d errors, the last %v", len(errs), errs[len(errs)-1])
	}
}

func TestTooMany(t *testing.T) {
	t.Parallel()
	var b strings.Builder
	b.WriteString("hours,failed,label\n")
	for i := range maxLabels + 50 {
		fmt.Fprintf(&b, "5,0,%d\n", i)
	}
	_, err := Read(t.Context(), strings.NewReader(b.String()), "x.csv", Options{})
	if errs, _ := errors.AsType[Errors](err); len(errs) != 1 || !strings.HasPrefix(errs[0].Error(), "x.csv:10002: found more than 10000 labels") {
		t.Errorf("%v", err)
	}
	if !thorough.Asked() {
		return // what follows is two million rows
	}
	_, err = Read(t.Context(), strings.NewReader("hours,failed\n"+strings.Repeat("1,0\n", maxDrives+2)), "x.csv", Options{})
	if errs, _ := errors.AsType[Errors](err); len(errs) != 1 || !strings.HasPrefix(errs[0].Error(), "x.csv:2000002: found more than 2000000 drives") {
		t.Errorf("%v", err)
	}
}

func TestZipThroughAPipe(t *testing.T) {
	data := zipOf(t, map[string]string{"a.csv": "hours,failed\n5,1\n"})
	// A bytes.Buffer has no places to go back to.
	_, err := Read(t.Context(), bytes.NewBuffer(data), "standard input", Options{})
	if _, ok := errors.AsType[Errors](err); !ok || !strings.Contains(err.Error(), "a zip archive coming through a pipe") {
		t.Errorf("%v", err)
	}
}

func TestZipMembersMustAgree(t *testing.T) {
	for _, c := range []struct {
		members map[string]string
		want    string
	}{
		{map[string]string{"readme.md": "x"}, "an archive without a .csv"},
		{map[string]string{"a.csv": "hours,failed\n5,1\n", "b.csv": "drive_days,failures\n5,1\n"}, "x.zip/b.csv:1: found the form: sums; right would be that of x.zip/a.csv: one row a drive, ages"},
		{map[string]string{"a.csv": "hours,failed\n5,1\n", "b.csv": ""}, "x.zip/b.csv: found nothing"},
		{map[string]string{"a.csv": "hours,failed\nx,1\n", "b.csv": "hours,failed\ny,1\n"}, "x.zip/a.csv:2: hours: found \"x\"; right would be hours, at least 0.001 and at most 438000 (50 years)\nx.zip/b.csv:2: hours: found \"y\""},
	} {
		_, err := Read(t.Context(), bytes.NewReader(zipOf(t, c.members)), "x.zip", Options{})
		if err == nil || !strings.Contains(err.Error(), c.want) {
			t.Errorf("%v\nwant %s", err, c.want)
		}
	}
}

func TestInterrupted(t *testing.T) {
	ctx, cancel := context.WithCancel(t.Context())
	cancel()
	_, err := Read(ctx, strings.NewReader("hours,failed\n5,1\n"), "x.csv", Options{})
	if !errors.Is(err, context.Canceled) {
		t.Errorf("%v", err)
	}
}

// What the disk does is no fault of the record.
func TestFailingDisk(t *testing.T) {
	f, err := os.Open(t.TempDir())
	if err != nil {
		t.Fatal(err)
	}
	defer f.Close()
	_, err = Read(t.Context(), f, "x.csv", Options{})
	if _, ok := errors.AsType[*fs.PathError](err); !ok {
		t.Errorf("%T %v", err, err)
	}
}
