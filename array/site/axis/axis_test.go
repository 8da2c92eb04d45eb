package axis

import (
	"errors"
	"fmt"
	"math"
	"os"
	"sort"
	"strings"
	"testing"
	"unicode/utf8"

	"arrayodds/array/site"
)

// TestAxes: what is typed, and what axis it is.
func TestAxes(t *testing.T) {
	t.Parallel()
	demo := openedFile(t, demo)
	plain := opened(t, small)
	for _, c := range []struct {
		s            *Source
		typed        string
		points       int
		path, unit   string
		values       string
		numeric, log bool
		own          float64
		ownText      string
	}{
		{demo, "care.notice=4 h..168 h", 3, "care.notice", "h", "4 h|25.92 h|168 h", true, true, 2, "2 h (1 h to 12 h)"},
		{demo, "care.notice = 4 h .. 7 d", 2, "care.notice", "h", "4 h|7 d", true, true, 2, "2 h (1 h to 12 h)"},
		{demo, "care.notice=1 h..3 h", 5, "care.notice", "h", "1 h|1.5 h|2 h|2.5 h|3 h", true, false, 2, "2 h (1 h to 12 h)"},
		{demo, "care.notice=1 h,30 min,2 h", 5, "care.notice", "h", "30 min|1 h|2 h", true, false, 2, "2 h (1 h to 12 h)"},
		{demo, "care.notice=0 h..100 h", 3, "care.notice", "h", "0 h|50 h|100 h", true, false, 2, "2 h (1 h to 12 h)"},
		{plain, "care.notice=30 min..240 min", 2, "care.notice", "min", "30 min|240 min", true, true, 60, "not given: default 1 h"},
		{plain, "care.scrub=1 d..2 d", 2, "care.scrub", "d", "1 d|2 d", true, false, math.NaN(), "not given: default none"},
		{plain, "drives.12 TB.price=100..200", 2, "drives.12 TB.price", "", "100|200", true, false, math.NaN(), "not given: no costs"},
		{plain, "drives.12 TB.life.afr=0.5 %..6 %", 3, "drives.12 TB.life.afr", "%", "0.5 %|1.732 %|6 %", true, true, 1.5, "1.5 %"},
		{plain, "drives.12 TB.capacity=8 TB,12 TB,20 TB", 3, "drives.12 TB.capacity", "TB", "8 TB|12 TB|20 TB", true, false, 12, "12 TB"},
		{plain, "drives.12 TB.capacity=8 TiB..9 TiB", 2, "drives.12 TB.capacity", "TiB", "8 TiB|9 TiB", true, false, 10.9139364212751, "12 TB"},
		{demo, "drives.8 TB.read_error=1 in 1e14 bits..1 in 10^16 bits", 3, "drives.8 TB.read_error", "bits", "1 in 1e14 bits|1 in 1e15 bits|1 in 10^16 bits", true, true, 1e14, "1 in 1e14 bits"},
		{demo, "care.rebuild_share=0.2..0.6", 3, "care.rebuild_share", "", "0.2|0.4|0.6", true, false, 0.4, "0.4"},
		{demo, "care.rebuild_share=20 %..60 %", 3, "care.rebuild_share", "%", "20 %|40 %|60 %", true, false, 40, "0.4"},
		{demo, "choices.*.hot_spares=0..2", 50, "choices.*.hot_spares", "", "0|1|2", true, false, math.NaN(), "differs from choice to choice"},
		{demo, "cameras.Ramps and quay.count=1..32", 6, "cameras.Ramps and quay.count", "", "1|2|4|8|16|32", true, true, 24, "24"},
		{demo, "choices.*.drive=8 TB, 12 TB", 2, "choices.*.drive", "", "8 TB|12 TB", false, false, math.NaN(), "differs from choice to choice"},
		{demo, `choices.*.drive="8 TB",12 TB`, 2, "choices.*.drive", "", "8 TB|12 TB", false, false, math.NaN(), "differs from choice to choice"},
		{demo, "choices.*.layout=RAID6,raid-60", 2, "choices.*.layout", "", "RAID 6|RAID 60", false, false, math.NaN(), "differs from choice to choice"},
		{demo, "care.unreadable=skip,stop", 2, "care.unreadable", "", "skip|stop", false, false, math.NaN(), "skip"},
		{demo, "care.scrub=none,168 h", 2, "care.scrub", "", "none|168 h", false, false, math.NaN(), "Weibull: minimum 6 h, scale 168 h, shape 3"},
		{demo, `care.response={ exponential = "9 h" },{ lognormal = { median = "9 h", p90 = "20 h" } }`, 2, "care.response", "", "exponential, mean 9 h|lognormal: half within 9 h, nine in ten within 20 h", false, false, math.NaN(), "lognormal: half within 36 h, nine in ten within 96 h"},
		{demo, "care.response=x0.25..x4", 3, "care.response", "x", "×0.25|×1|×4", true, true, 1, "lognormal: half within 36 h, nine in ten within 96 h"},
		{demo, "care.response=×0.5,×2", 3, "care.response", "x", "×0.5|×2", true, false, 1, "lognormal: half within 36 h, nine in ten within 96 h"},
		{demo, "drives.*.life=x0.5..2", 3, "drives.*.life", "x", "×0.5|×1.25|×2", true, false, 1, "differs from drive to drive"},
		{demo, "drives.18 TB.life=x2,x1", 3, "drives.18 TB.life", "x", "×1|×2", true, false, 1, "21 failures in 612000 drive-days"},
		{demo, "drives.12 TB.life.afr_by_year.2=1 %..3 %", 2, "drives.12 TB.life.afr_by_year.2", "%", "1 %|3 %", true, false, 1.1, "1.1 %"},
		{demo, "choices.RAID 6, 7 x 18 TB, hot spare.care.notice=1 h,2 h", 2, "choices.RAID 6, 7 x 18 TB, hot spare.care.notice", "h", "1 h|2 h", true, false, 2, "2 h (1 h to 12 h)"},
		{plain, "choices.*.care.notice=2 h", 2, "choices.*.care.notice", "h", "2 h", true, false, 1, "not given: default 1 h"},
		{plain, "hazards.degraded_multiplier=1.00001..1.00002", 3, "hazards.degraded_multiplier", "", "1.00001|1.000015|1.00002", true, false, 1, "not given: default 1"},
	} {
		a, err := c.s.Axis(c.typed, c.points)
		if err != nil {
			t.Errorf("%s: %v", c.typed, err)
			continue
		}
		var texts []string
		for _, v := range a.Values {
			texts = append(texts, v.Text)
			if a.Numeric == math.IsNaN(v.Shown) {
				t.Errorf("%s: %+v", c.typed, v)
			}
			if a.Numeric && a.At(v.Shown) != v {
				t.Errorf("%s: at %v there is %+v", c.typed, v.Shown, a.At(v.Shown))
			}
		}
		got := fmt.Sprint(a.Path, "; ", a.Unit, "; ", strings.Join(texts, "|"), "; ", a.Numeric, a.Log, a.OwnText)
		want := fmt.Sprint(c.path, "; ", c.unit, "; ", c.values, "; ", c.numeric, c.log, c.ownText)
		if got != want {
			t.Errorf("%s gives\n%s\nwant\n%s", c.typed, got, want)
		}
		if a.Own != c.own && !(math.IsNaN(a.Own) && math.IsNaN(c.own)) {
			t.Errorf("%s: own %v, want %v", c.typed, a.Own, c.own)
		}
		if wants := strings.HasSuffix(c.path, ".drive") || strings.HasSuffix(c.path, ".layout"); a.Resizes != wants {
			t.Errorf("%s: resizes is %v", c.typed, a.Resizes)
		}
	}
}

// TestAt: numbers between the ends lose no digits, and beyond them are the ends.
func TestAt(t *testing.T) {
	t.Parallel()
	s := openedFile(t, demo)
	a := axis(t, s, "drives.12 TB.transfer=200 MB/s..300 MB/s", 2)
	v := a.At(212.3456789)
	if v.Text != "212.3 MB/s" || v.Shown != 212.3456789 {
		t.Errorf("%+v", v)
	}
	if got := with(t, s, a.Set(v)).Site.Drives[1].Transfer; math.Abs(got-212.3456789e6) > 1e-6 {
		t.Errorf("%v", got)
	}
	if a.At(1) != a.Values[0] && a.At(1).Shown != 200 || a.At(1e9).Shown != 300 {
		t.Errorf("%+v %+v", a.At(1), a.At(1e9))
	}
	if got := with(t, s, a.Set(Value{Shown: 250})).Site.Drives[1].Transfer; got != 250e6 {
		t.Errorf("%v", got)
	}
	count := axis(t, s, "choices.*.hot_spares=0..4", 2)
	if got := count.At(2.6); got.Shown != 3 || got.Text != "3" {
		t.Errorf("%+v", got)
	}
	words := axis(t, s, "care.unreadable=skip,stop", 2)
	if _, err := s.With(words.Set(Value{Shown: 1})); err == nil {
		t.Error("a number stands for a word")
	}
}

// TestAxisErrors: what is typed wrong, and what is said.
func TestAxisErrors(t *testing.T) {
	t.Parallel()
	const golden = "testdata/axis-errors.golden"
	s := openedFile(t, demo)
	var b strings.Builder
	for _, typed := range []string{
		"", "=", "care.response", "care.response=", "care.response=4 h,,5 h", "care.response=4 h..", "care..response=4 h", "care.=4 h", `"care.response=4 h`,
		"run.seed=1..4", "run=1", "name=a,b", "currency=EUR,USD", "document.customer=a,b", "goal.budget=1..2", "choices.JBOD, 5 x 18 TB.label=a", "care=1", "hazards=x2", "choices=1", "choices.*=1", "drives.8 TB=1",
		"drives.9 TB.life.afr=1 %", "drives.nothing like it.price=1", "camera.x.count=1",
		"afr=1 %..3 %", "response=1 h..9 h", "drives.*.afr=1 %,2 %", "drives.18 TB.afr=1 %..3 %", "afr=x0.5..x2", "recorder.mains.exponential=1 h..2 h", "care.respnse=4 h..5 h", "choices.*.care.x.y=1",
		"care.notice.mean=4 h", "drives.12 TB.life.afr_by_year.9=1 %", "drives.12 TB.life.afr_by_year.x=1 %",
		"care.response=5 h..4 h", "care.response=4..5", "care.response=4 h..5", "care.response=60 y,70 y", "care.response=4 h,4 h,5 h",
		"care.response=none", "care.scrub=none..4 h", "care.unreadable=skip..stop", "care.unreadable=skip,skp", "care.unreadable=skip,skip",
		"care.response={ exponential = 4 h }", `care.response={ exponential = "4 h" } x`, `care.response={ low = "4 h" }`, `care.response="4 h`,
		"choices.*.hot_spares=0.5..2", "choices.*.drive=8 TB,9 TB", "choices.*.drives=0..3", "hazards.common_cause=x1..x2",
		"care.response=x2..x0.5", "care.response=x0..x2", "care.response=x1,2", "care.response=x1..x999999", "care.unreadable=x2", "care.controller_limit=x0.5,x1,x1",
		"drives.12 TB.life.shape=1..2", "drives.12 TB.transfer=10 MB/s..20 MB/s", "care.rebuild_floor=20 MB/s..900 MB/s",
		"hazards.common_cause.per_year=1e9", "recorder.mains.mean=1 h..5000 h", "cameras.\x1b.count=1", "care.\x1bx=1", "care.notice=\x1b",
	} {
		_, err := s.Axis(typed, 5)
		var errs site.Errors
		if !errors.As(err, &errs) {
			t.Errorf("%q: %v", typed, err)
			continue
		}
		fmt.Fprintf(&b, "%q\n", typed)
		for _, e := range errs {
			fmt.Fprintf(&b, "\t%v\n", e)
		}
	}
	for _, points := range []int{-1, 0, 1, MaxPoints + 1} {
		if _, err := s.Axis("care.response=4 h..5 h", points); err == nil {
			t.Errorf("%d points", points)
		}
	}
	if _, err := s.Axis("care.response="+strings.Repeat("1 h,", MaxPoints)+"1 h", 2); err == nil || !strings.Contains(err.Error(), "501 values") {
		t.Error(err)
	}
	if *update {
		if err := os.WriteFile(golden, []byte(b.String()), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want := readText(t, golden); b.String() != want {
		t.Errorf("%s\nwant\n%s", b.String(), want)
	}
}

// TestErrorsOfSettings: the place of an error is what was set.
func TestErrorsOfSettings(t *testing.T) {
	t.Parallel()
	s := openedFile(t, demo)
	floor, transfer := axis(t, s, "care.rebuild_floor=20 MB/s..180 MB/s", 2), axis(t, s, "drives.8 TB.transfer=100 MB/s..190 MB/s", 2)
	_, err := s.With(floor.Set(floor.Values[1]), transfer.Set(transfer.Values[0]))
	const want = `care.rebuild_floor = 180 MB/s, drives.8 TB.transfer = 100 MB/s: choices.RAID 5, 8 x 8 TB.drive: found a drive of 100 MB/s under a rebuild_floor of 180 MB/s; right would be a floor that the drive can keep up with`
	if err == nil || err.Error() != want {
		t.Errorf("%v\nwant\n%s", err, want)
	}
}

// FuzzAxis: whatever is typed, the answer is errors that each are one line, or an
// axis in order whose values can be set.
func FuzzAxis(f *testing.F) {
	s := openedFile(f, demo)
	for _, typed := range []string{
		"care.response=4 h..168 h", "choices.*.drive=8 TB,12 TB", "care.response=x0.25..x4", `drives."8 TB".life={ afr = "1 %" },{ mtbf = "1e6 h" }`,
		"drives.12 TB.life.afr_by_year.*=x2", "hazards.common_cause=x2", "choices.*.care.response.lognormal.p90=1 d..2 d", "cameras.*.count=[1],{},x", "recorder.swap.powered_down=1 h",
	} {
		f.Add(typed)
	}
	f.Fuzz(func(t *testing.T, typed string) {
		a, err := s.Axis(typed, 7)
		if err == nil {
			if len(a.Values) == 0 || len(a.Values) > MaxPoints || a.Numeric && !sort.SliceIsSorted(a.Values, func(i, j int) bool { return a.Values[i].Shown < a.Values[j].Shown }) {
				t.Fatalf("%+v", a)
			}
			for _, v := range a.Values {
				if v.Text == "" || strings.ContainsAny(v.Text, "\n\r\x1b\x00") {
					t.Fatalf("%+v", v)
				}
				var file *site.File
				if file, err = s.With(a.Set(v), Resize()); err != nil {
					break
				}
				for i, c := range file.Site.Choices {
					if file.Unfit[i] != "" {
						continue
					}
					if _, err := file.Site.Size(c); err != nil {
						t.Fatalf("%s: %v", c.Label, err)
					}
				}
			}
		}
		if err == nil {
			return
		}
		var errs site.Errors
		if !errors.As(err, &errs) || len(errs) == 0 {
			t.Fatalf("%T %v", err, err)
		}
		for _, e := range errs {
			if e.Found == "" || e.Right == "" || strings.ContainsAny(e.Error(), "\n\r\x1b\x00") || !utf8.ValidString(e.Error()) {
				t.Fatalf("%+q", e)
			}
		}
	})
}
