package site

import (
	"errors"
	"fmt"
	"math"
	"strings"
	"testing"
	"testing/fstest"

	"arrayodds/array"
)

// logged is the small file with a log, and with the life given.
func logged(life, log string) string {
	return strings.Replace(small, `{ afr = "1.5 %" }`, life, 1) + "\n[[log]]\n" + log + "\n"
}

var records = fstest.MapFS{
	"dates.csv": {Data: []byte("installed,removed,failed\n2024-01-01,,no\n2024-01-01,2025-01-01,yes\n2025-01-01,,no\n")},
	"ages.csv":  {Data: []byte("hours;failed;entered\n20000;no;8760\n17520;yes;0\n")},
	"sums.csv":  {Data: []byte("drive_days,failures\n730,1\n365,0\n")},
	"bands.csv": {Data: []byte("drive_days,failures,age_from,age_to\n730,1,0,1\n365,0,1,2\n")},
	"two.csv":   {Data: []byte("drive_days,failures,model\n730,1,X1\n365,0,12 TB\n")},
	"other.csv": {Data: []byte("drive_days,failures,model\n730,1,X1\n365,0,X2\n")},
	"wrong.csv": {Data: []byte("installed,removed,failed\n2024-01-01,,no\n2024-13-01,2025-01-01,yes\n")},
	"none.csv":  {Data: []byte("drive_days,failures\n")},
	"gzip.csv":  {Data: []byte("\x1f\x8b\x08rest")},
	"large.csv": {Data: []byte("drive_days,failures\n" + strings.Repeat("1,0\n", 1<<20))},
	"many.csv":  {Data: []byte("hours,failed\n" + strings.Repeat("100,no\n", 20_001))},
}

// Each form of a log as one of figures says the same: failures, drive-days, and what the law
// expects, by hand.
func TestLogForms(t *testing.T) {
	t.Parallel()
	const year = 8760.0
	rate, rising := `{ afr = "1.5 %" }`, `{ afr_by_year = ["1 %", "2 %", "4 %"] }`
	for _, c := range []struct {
		life, log                string
		failures, days, expected float64
	}{
		{rate, "failures = 3\ndrive_days = 36500", 3, 36500, 1.5},
		{rate, "failures = 3\ndrives = 50\nsince = 2023-01-01\nuntil = 2025-01-01", 3, 50 * 731, 0.015 * 50 * 731 / 365},
		{rising, "failures = 3\ndrives = 50\nsince = 2023-01-01\nuntil = 2024-01-01", 3, 50 * 365, 0.5},
		{rising, "failures = 0\ndrives = 50\nsince = 2023-01-01\nuntil = 2024-01-01\nage = \"1 y\"", 0, 50 * 365, 1},
		{rising, "failures = 0\ndrives = 10\nsince = 2023-01-01\nuntil = 2024-01-01\nage = \"18 mo\"", 0, 3650, 0},
		// 2024 has 366 days.
		{rate, "file = \"dates.csv\"\nuntil = 2025-12-31", 1, 730 + 366 + 364, 0.015 * (730 + 366 + 364) / 365},
		{rising, "file = \"ages.csv\"", 1, (20000 - 8760 + 17520) / 24.0, 0.02 + 0.04*(20000-2*year)/year + 0.01 + 0.02},
		{rate, "file = \"sums.csv\"", 1, 1095, 0.045},
		{rising, "file = \"bands.csv\"", 1, 1095, 0.04},
		{rate, "file = \"two.csv\"", 0, 365, 0.015},
		{rate, "file = \"two.csv\"\nmodel = \"X1\"", 1, 730, 0.03},
		{rate, "file = \"two.csv\"\nmodel = \"X1\"\n[[log]]\ndrive = \"12 TB\"\nfailures = 2\ndrive_days = 365", 3, 1095, 0.045},
	} {
		if strings.Contains(c.log, "18 mo") { // half of it in the second year, half in the third
			c.log, c.expected = strings.Replace(c.log, "18 mo", "13140 h", 1), 10*(0.01+0.02)
		}
		f, err := Read(strings.NewReader(logged(c.life, "drive = \"12 TB\"\n"+c.log)), "s.toml", Beside(records))
		if err != nil {
			t.Errorf("%s: %v", c.log, err)
			continue
		}
		l := f.Site.Choices[0].Drive.Log
		if l == nil || l.Failures != c.failures || math.Abs(l.DriveDays-c.days) > 1e-9 || math.Abs(l.Expected-c.expected) > 1e-12 {
			t.Errorf("%s, %s: %+v, want %v", c.life, c.log, l, c)
		}
		said := 0
		for _, a := range f.Assumptions {
			if a.Path == "drives.12 TB.log" && strings.HasPrefix(a.Text, "the failure rate is that of its law updated by ") {
				said++
			}
		}
		if said != 1 {
			t.Errorf("%s: %d assumptions on it", c.log, said)
		}
	}
}

// What is wrong with a log is one error, at its place.
func TestLogRefused(t *testing.T) {
	t.Parallel()
	rate, rising := `{ afr = "1.5 %" }`, `{ afr_by_year = ["1 %", "2 %"] }`
	for _, c := range []struct{ life, log, says string }{
		{rate, `drive = "12TB"` + "\nfailures = 1\ndrive_days = 5000", `log.Log 1.drive: found "12TB", a label that no drive has; right would be the label of one of the [[drives]]: "12 TB" (did you mean "12 TB"?)`},
		{rate, "failures = 1\ndrive_days = 5000", "log.Log 1.drive: found nothing"},
		{rate, `drive = "12 TB"`, "log.Log 1: found neither file nor failures; right would be one of the two"},
		{rate, "drive = \"12 TB\"\nfailurs = 1\ndrive_days = 5000", `log.Log 1.failurs: found an unknown key; right would be one of age, drive, drive_days, drives, failures, file, model, since, until (did you mean "failures"?)`},
		{rate, "drive = \"12 TB\"\nfailures = 1", "log.Log 1: found failures without how long how many drives ran; right would be drive_days, or drives, since and until"},
		{rate, "drive = \"12 TB\"\nfailures = -1\ndrive_days = 5000", "log.Log 1.failures: found -1"},
		{rate, "drive = \"12 TB\"\nfailures = 600\ndrive_days = 500", "no more failures than drive-days"},
		{rate, "drive = \"12 TB\"\nfailures = { low = 1, likely = 2, high = 3 }\ndrive_days = 500", "log.Log 1.failures: found a range; right would be one value"},
		{rate, "drive = \"12 TB\"\nfailures = 1\ndrives = 8\nsince = 2025-01-01\nuntil = 2024-01-01", "log.Log 1.until: found 2024-01-01; right would be a day after that of since, 2025-01-01"},
		{rate, "drive = \"12 TB\"\nfailures = 1\ndrives = 8\nsince = 1960-01-01\nuntil = 2024-01-01", "at most 50 years after"},
		{rate, "drive = \"12 TB\"\nfailures = 1\ndrives = 8\nsince = 0001-01-01\nuntil = 2003-01-01", "log.Log 1.since: found 0001-01-01; right would be a day from 1950-01-01 on"},
		{rate, "drive = \"12 TB\"\nfailures = 1\ndrives = 8\nsince = 2025-01-01\nuntil = 0001-01-01", "log.Log 1.until: found 0001-01-01"},
		{rate, "drive = \"12 TB\"\nfile = \"dates.csv\"\nuntil = 0001-01-01", "log.Log 1.until: found 0001-01-01"},
		{rate, "drive = \"12 TB\"\nfailures = 1\ndrives = 8\nsince = 2025-01-01", "log.Log 1.until: found nothing"},
		{rate, "drive = \"12 TB\"\nfailures = 1\ndrives = 8\nsince = \"2025-01-01\"\nuntil = 2026-01-01", "without quotes"},
		{rate, "drive = \"12 TB\"\nfailures = 1\ndrive_days = 5000\nage = \"1 y\"", "log.Log 1.age: found it beside drive_days"},
		{rising, "drive = \"12 TB\"\nfailures = 1\ndrive_days = 5000", `log.Log 1.drive_days: found days of drives whose age it does not tell; right would be drives, since and until in their place, as the failure rate of "12 TB" changes with age`},
		{rising, "drive = \"12 TB\"\nfile = \"sums.csv\"", `log.Log 1.file: found sums without the ages of drives; right would be age_from and age_to beside them`},
		{`{ shape = 2, scale = "1e10 h", min = "50 y" }`, "drive = \"12 TB\"\nfailures = 1\ndrives = 8\nsince = 2025-01-01\nuntil = 2026-01-01", `log.Log 1.failures: found 1 failure in 2 920 drive-days, where the law of "12 TB" expects 0`},
		{rate, "drive = \"12 TB\"\nfile = \"missing.csv\"", `log.Log 1.file: found "missing.csv", which is not there`},
		{rate, "drive = \"12 TB\"\nfile = \"../dates.csv\"", "which is not beside the site file"},
		{rate, "drive = \"12 TB\"\nfile = \"gzip.csv\"", "which is packed, or a workbook"},
		{rate, "drive = \"12 TB\"\nfile = \"large.csv\"", "a larger file; right would be at most 4 MiB"},
		{rate, "drive = \"12 TB\"\nfile = \"many.csv\"", "with 20 001 drives"},
		{rate, "drive = \"12 TB\"\nfile = \"none.csv\"", "none.csv: found headings and nothing that counts below"},
		{rate, "drive = \"12 TB\"\nfile = \"dates.csv\"", "dates.csv:2: removed: found nothing; right would be a date or, as the drive still runs, until with the last day of the record"},
		{rate, "drive = \"12 TB\"\nfile = \"sums.csv\"\nuntil = 2025-01-01", "sums.csv: until: found a day, and no dates in the record"},
		{rate, "drive = \"12 TB\"\nfile = \"sums.csv\"\nfailures = 3", "log.Log 1.failures: found it beside file; right would be one of the two"},
		{rate, "drive = \"12 TB\"\nfile = \"other.csv\"", `log.Log 1.file: found 2 models in "other.csv" and none called "12 TB"; right would be model beside it, one of them: "X1", "X2"`},
		{rate, "drive = \"12 TB\"\nfile = \"two.csv\"\nmodel = \"X2\"", `log.Log 1.model: found "X2", which is not in "two.csv"; right would be one of them: "12 TB", "X1"`},
	} {
		_, err := Read(strings.NewReader(logged(c.life, c.log)), "s.toml", Beside(records))
		var errs Errors
		if !errors.As(err, &errs) || len(errs) != 1 || !strings.Contains(errs[0].Error(), c.says) {
			t.Errorf("%s: %v\nwant %s", c.log, err, c.says)
		}
	}
	// Everything that is wrong with a record is listed.
	_, err := Read(strings.NewReader(logged(rate, "drive = \"12 TB\"\nfile = \"wrong.csv\"")), "s.toml", Beside(records))
	if errs := (Errors)(nil); !errors.As(err, &errs) || len(errs) != 2 {
		t.Errorf("%v", err)
	}
	_, err = Read(strings.NewReader(logged(rate, "drive = \"12 TB\"\nfile = \"dates.csv\"")), "s.toml")
	if err == nil || !strings.Contains(err.Error(), "cannot be opened from here") {
		t.Errorf("%v", err)
	}
}

// A range of the rate is where the law begins: the wider, the more the log says.
func TestLogAndRanges(t *testing.T) {
	t.Parallel()
	mean := func(life string) float64 {
		f, err := Read(strings.NewReader(logged(life, "drive = \"12 TB\"\nfailures = 12\ndrive_days = 100000")), "s.toml")
		if err != nil {
			t.Fatal(err)
		}
		u := f.Site.Drives[0].Life.(array.UpdatedLife)
		return u.Expected(0, 8760)
	}
	seen := 12.0 / 100000 * 365
	before := 0.0
	for i, life := range []string{
		`{ afr = { low = "1.4 %", likely = "1.5 %", high = "1.6 %" } }`, `{ afr = { low = "1 %", likely = "1.5 %", high = "2 %" } }`,
		`{ afr = "1.5 %" }`, `{ afr = { low = "0.3 %", likely = "1.5 %", high = "6 %" } }`,
	} {
		got := mean(life)
		if got <= before || got >= seen || i == 0 && got > 0.016 {
			t.Errorf("%s: %v a year, after %v; seen are %v", life, got, before, seen)
		}
		before = got
	}
}

// The time that many ranges and a long record take is bounded.
func TestLogWithManyRanges(t *testing.T) {
	t.Parallel()
	var b strings.Builder
	b.WriteString(small)
	for i := range 20 {
		fmt.Fprintf(&b, "\n[[drives]]\nlabel = \"d%d\"\ncapacity = \"12 TB\"\nlife = { shape = 1.3, scale = { low = \"200000 h\", likely = \"400000 h\", high = \"500000 h\" } }\ntransfer = \"200 MB/s\"\n[[log]]\ndrive = \"d%d\"\nfile = \"full.csv\"\n", i, i)
	}
	files := fstest.MapFS{"full.csv": {Data: []byte("hours,failed\n" + strings.Repeat("10000,no\n", 20_000))}}
	f, err := Read(strings.NewReader(b.String()), "s.toml", Beside(files))
	if err != nil {
		t.Fatal(err)
	}
	if l := f.Site.Drives[20].Log; l == nil || l.DriveDays < 8e6 {
		t.Errorf("%+v", l)
	}
}
