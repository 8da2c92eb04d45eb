package site

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"arrayodds/array"
)

// ranged is the small file with ranges in many places.
var ranged = strings.NewReplacer(
	`service_life = "5 y"`, `service_life = { low = "4 y", likely = "5 y", high = "7 y" }`,
	`{ afr = "1.5 %" }`, `{ afr = { low = "0.8 %", likely = "1.5 %", high = "3 %" } }`,
	`drives = 8`, `drives = { low = 6, likely = 8, high = 10 }`,
).Replace(small) + `
[care]
response = { low = "12 h", likely = { lognormal = { median = "24 h", p90 = "72 h" } }, high = "96 h" }
rebuild_share = { low = 0.2, likely = "40 %", high = 0.6 }
scrub = { weibull = { scale = { low = "100 h", likely = "168 h", high = "300 h" }, shape = 3 } }
[hazards]
common_cause = { per_year = { low = 0, likely = 0.01, high = 0.1 }, each_drive = 0.5 }
[hazards.degraded_multiplier]
low = 1
likely = 1.5
high = 2
`

// TestRanges: the likely value counts, and the ends are listed.
func TestRanges(t *testing.T) {
	s := opened(t, ranged)
	plain := strings.NewReplacer(`drives = 8`, "drives = 8\n[care]\nresponse = { lognormal = { median = \"24 h\", p90 = \"72 h\" } }\nrebuild_share = 0.4\nscrub = { weibull = { scale = \"168 h\", shape = 3 } }\n"+
		"[hazards]\ncommon_cause = { per_year = 0.01, each_drive = 0.5 }\ndegraded_multiplier = 1.5\n").Replace(small)
	if want := opened(t, plain); !same(s.File(), want.File()) {
		t.Errorf("%+v\nwant\n%+v", s.File(), want.File())
	}
	listed := map[string]string{}
	for _, a := range s.File().Assumptions {
		listed[a.Path] = a.Text
	}
	for path, text := range map[string]string{
		"service_life":                  "5 y (4 y to 7 y)",
		"drives.12 TB.life":             "AFR 1.5 % (0.8 % to 3 %)",
		"choices.Eight.drives":          "8 (6 to 10)",
		"care.response":                 "lognormal: half within 24 h, nine in ten within 72 h (12 h to 96 h)",
		"care.rebuild_share":            "40 % (0.2 to 0.6)",
		"care.scrub":                    "Weibull: minimum 0 h, scale 168 h (100 h to 300 h), shape 3",
		"hazards.common_cause.per_year": "0.01 (0 to 0.1)",
		"hazards.degraded_multiplier":   "1.5 (1 to 2)",
	} {
		if listed[path] != text {
			t.Errorf("%s is listed as %q, want %q", path, listed[path], text)
		}
	}
}

// TestGivenInputs: the ranges of the file come first, in its order, and nothing has
// a default range beside one that is given.
func TestGivenInputs(t *testing.T) {
	s := opened(t, ranged)
	var got []string
	for _, in := range s.Inputs() {
		got = append(got, fmt.Sprintf("%s: %s, %s, %s; %v %q", in.Axis.Path, in.Low.Text, in.Likely.Text, in.High.Text, in.Given, in.Axis.Unit))
	}
	want := []string{
		`service_life: 4 y, 5 y, 7 y; true "y"`,
		`drives.12 TB.life.afr: 0.8 %, 1.5 %, 3 %; true "%"`,
		`choices.Eight.drives: 6, 8, 10; true ""`,
		`care.response: 12 h, lognormal: half within 24 h, nine in ten within 72 h, 96 h; true ""`,
		`care.rebuild_share: 0.2, 40 %, 0.6; true ""`,
		`care.scrub.weibull.scale: 100 h, 168 h, 300 h; true "h"`,
		`hazards.common_cause.per_year: 0, 0.01, 0.1; true ""`,
		`hazards.degraded_multiplier: 1, 1.5, 2; true ""`,
		`drives.12 TB.batch_variance: 0, 0, 1; false ""`,
		`care.notice: 0.5 h, 1 h, 2 h; false "h"`,
		`hazards.common_cause.each_drive: 0.25, 0.5, 1; false ""`,
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("\n%s\nwant\n%s", strings.Join(got, "\n"), strings.Join(want, "\n"))
	}
}

// TestInputsCanBeSet: both ends of every input are accepted, alone and together.
func TestInputsCanBeSet(t *testing.T) {
	extreme := strings.NewReplacer(`{ afr = "1.5 %" }`, `{ afr = "1000 %" }`+"\nread_error = \"1 in 1e10 bits\"\nhazard_multiplier = 1000\nlatent_defects = { mean = \"1e10 h\" }\nbatch_variance = 100").Replace(small) +
		"hot_spares = 1\n[care]\nresponse = { exponential = \"50 y\" }\nrebuild_share = 1\nnotice = \"0 h\"\nscrub = \"1 s\"\n[hazards]\ndegraded_multiplier = 1000\ncommon_cause = { per_year = 1000, each_drive = 1 }\n"
	record := strings.Replace(small, `{ afr = "1.5 %" }`, "{ failures = 0, drive_days = 5000 }", 1)
	for _, s := range []*Source{openedFile(t, demo), openedFile(t, "testdata/everything.toml"), opened(t, ranged), opened(t, extreme), opened(t, record)} {
		inputs := s.Inputs()
		if len(inputs) < 5 {
			t.Errorf("%d inputs", len(inputs))
		}
		for _, end := range []func(Input) Value{func(in Input) Value { return in.Low }, func(in Input) Value { return in.High }} {
			var all []Setting
			for _, in := range inputs {
				set := in.Axis.Set(end(in))
				all = append(all, set)
				f, err := s.With(set)
				if err != nil {
					t.Error(err)
				} else if same(f, s.File()) && end(in).Shown != in.Likely.Shown {
					t.Errorf("%s changes nothing", set.said())
				}
				if (in.Range == "") != in.Given || len(in.Axis.Values) != 2 {
					t.Errorf("%+v", in)
				}
			}
			if _, err := s.With(all...); err != nil {
				t.Error(err)
			}
		}
	}
}

// TestRecordInput: a field record moves over the 95 % interval of its rate, which
// is that of Gamma(failures + ½, drive-days), and is known at its ends. For 21
// failures in 612 000 drive-days scipy 1.10.1, gamma.ppf([.025, .975], 21.5) / 21.5,
// gives 0.62291568 and 1.46489199 times the mean of 21.5 ÷ 612 000 a day.
func TestRecordInput(t *testing.T) {
	s := openedFile(t, demo)
	found := false
	for _, in := range s.Inputs() {
		if in.Axis.Path != "drives.18 TB.life.afr" {
			continue
		}
		found = true
		for i, want := range []float64{0.62291568, 1.46489199} {
			f := with(t, s, in.Axis.Set(in.Axis.Values[i]))
			life, ok := f.Site.Drives[2].Life.(array.ConstantRate)
			if got := life.AFR / (21.5 / 612000 * 365); !ok || math.Abs(got-want) > 1e-6 {
				t.Errorf("%+v, %v times the mean, want %v", f.Site.Drives[2].Life, got, want)
			}
		}
	}
	if !found {
		t.Error("no input for the record")
	}
}

// TestFittedInput: shape and scale of a fit move by 1.96 of their errors; 0.09 and
// 0.14 give factors of exp(±0.1764) and exp(±0.2744), here as numpy has them.
func TestFittedInput(t *testing.T) {
	s := opened(t, strings.Replace(small, `{ afr = "1.5 %" }`, `{ shape = 1.2, scale = "50000 h", shape_error = "9 %", scale_error = "14 %" }`, 1))
	ends := map[string][2]float64{}
	for _, in := range s.Inputs() {
		ends[in.Axis.Path] = [2]float64{in.Low.Shown, in.High.Shown}
	}
	for path, want := range map[string][2]float64{
		"drives.12 TB.life.shape": {1.2 * 0.838282, 1.2 * 1.192916}, "drives.12 TB.life.scale": {50000 * 0.760029, 50000 * 1.315740},
	} {
		for i := range want {
			if got := ends[path][i]; math.Abs(got/want[i]-1) > 2e-6 {
				t.Errorf("%s: %v, want %v", path, ends[path], want)
			}
		}
	}
}

// TestCareInputs: what a choice overrides is an input of its own, and what bears on
// no choice is none.
func TestCareInputs(t *testing.T) {
	paths := func(in string) map[string]bool {
		all := map[string]bool{}
		for _, i := range opened(t, in).Inputs() {
			if strings.Contains(i.Axis.Path, "care.") {
				all[i.Axis.Path] = true
			}
		}
		return all
	}
	for in, want := range map[string]string{
		small:                                  "care.notice care.response care.rebuild_share",
		small + "hot_spares = 1\n":             "care.notice care.response care.restock care.rebuild_share",
		small + "[care]\nrestore = \"48 h\"\n": "care.restore",
		small + "[choices.care]\nresponse = \"5 h\"\nscrub = \"9 h\"\n": "care.notice choices.Eight.care.response care.rebuild_share choices.Eight.care.scrub",
	} {
		expected := map[string]bool{}
		for _, path := range strings.Fields(want) {
			expected[path] = true
		}
		if got := paths(in); !reflect.DeepEqual(got, expected) {
			t.Errorf("%v, want %s of\n%s", got, want, in)
		}
	}
}

// TestRefuseRanges: each of these is one error that says these words.
func TestRefuseRanges(t *testing.T) {
	for _, c := range []struct{ was, is, says string }{
		{`"1.5 %"`, `{ low = "0.8 %", likely = "1.5 %" }`, `s.toml:5: drives.12 TB.life.afr.high: found nothing`},
		{`"1.5 %"`, `{ likely = "1.5 %", high = "3 %" }`, `drives.12 TB.life.afr.low: found nothing`},
		{`"1.5 %"`, `{ low = "0.8 %", likly = "1.5 %", high = "3 %" }`, `drives.12 TB.life.afr.likly: found an unknown key of a range; right would be { low = ..., likely = ..., high = ... } (did you mean "likely"?)`},
		{`"1.5 %"`, `{ low = "0.8 %", likely = "1.5 %", high = "3 %", mean = 3 }`, `found an unknown key of a range`},
		{`"1.5 %"`, `{ low = "2 %", likely = "1.5 %", high = "3 %" }`, `drives.12 TB.life.afr.low: found "2 %"; right would be at most the likely 1.5 %`},
		{`"1.5 %"`, `{ low = "1 %", likely = "1.5 %", high = "1.2 %" }`, `drives.12 TB.life.afr.high: found "1.2 %"; right would be at least the likely 1.5 %`},
		{`"1.5 %"`, `{ low = "1.5 %", likely = "1.5 %", high = "1.5 %" }`, `found a range that begins where it ends`},
		{`"1.5 %"`, `{ low = "0 %", likely = "1.5 %", high = "3 %" }`, `drives.12 TB.life.afr.low: found "0 %"; right would be 0.00001 % to 1000 %`},
		{`"1.5 %"`, `{ low = 1, likely = "1.5 %", high = "3 %" }`, `drives.12 TB.life.afr.low: found 1, a number without a unit`},
		{`"1.5 %"`, `{ low = "1 %", likely = { low = "1 %", likely = "1 %", high = "1 %" }, high = "3 %" }`, `drives.12 TB.life.afr.likely: found a range within a range`},
		{`drives = 8`, `drives = { low = 6.5, likely = 8, high = 9 }`, `choices.Eight.drives.low: found 6.5; right would be a whole number`},
		{`drives = 8`, `drives = { low = 3, likely = 8, high = 9 }`, `right would be at least 4 a group for RAID 6, 4 in all`},
		{`drives = 8`, `drives = { low = 12, likely = 15, high = 16 }` + "\ngroups = 3", `found 16 drives in 3 groups, which do not divide, where choices.Eight.drives is 16`},
		{`"RAID 6"`, `{ low = "RAID 5", likely = "RAID 6", high = "RAID 60" }`, `choices.Eight.layout: found a range; right would be one value`},
		{`label = "Eight"`, `label = { low = "a", likely = "b", high = "c" }`, `found a range; right would be one value`},
		{`{ afr = "1.5 %" }`, `{ low = { afr = "1 %" }, likely = { afr = "2 %" }, high = { afr = "3 %" } }`, `drives.12 TB.life: found a range; right would be one value`},
		{`drives = 8`, "drives = 8\n[run]\naccuracy = { low = \"1 %\", likely = \"5 %\", high = \"9 %\" }", `run.accuracy: found a range; right would be one value`},
		{`drives = 8`, "drives = 8\n[care]\nresponse = { low = { lognormal = { median = \"9 h\", p90 = \"8 h\" } }, likely = \"9 h\", high = \"12 h\" }", `care.response.low.lognormal.p90: found "8 h"; right would be above the median of 9 h`},
		{`drives = 8`, "drives = 8\n[care]\nresponse = { lognormal = { median = { low = \"9 h\", likely = \"10 h\", high = \"90 h\" }, p90 = \"72 h\" } }", `care.response.lognormal.p90: found "72 h", where care.response.lognormal.median is 90 h; right would be above the median of 90 h, and at most 1000 times as long`},
		{`drives = 8`, "drives = 8\n[care]\nscrub = { low = \"9 h\", likely = \"none\", high = \"90 h\" }", `care.scrub: found a range`},
	} {
		in := strings.Replace(small, c.was, c.is, 1)
		_, err := Read(strings.NewReader(in), "s.toml")
		if err == nil {
			t.Errorf("%s was accepted", c.is)
			continue
		}
		if errs := err.(Errors); len(errs) != 1 || !strings.Contains(err.Error(), c.says) {
			t.Errorf("%s gives\n%v\nnot %s", c.is, err, c.says)
		}
	}
	var many strings.Builder
	for i := range maxSpans + 1 {
		fmt.Fprintf(&many, "[[drives]]\nlabel = \"%d\"\ncapacity = \"1 TB\"\nlife = { afr_by_year = [%s] }\ntransfer = \"100 MB/s\"\n", i, strings.Repeat(`{ low = "1 %", likely = "2 %", high = "3 %" },`, 50))
	}
	if _, err := Read(strings.NewReader(small+many.String()), "s.toml"); err == nil || !strings.Contains(err.Error(), "more than 100 ranges") {
		t.Error(err)
	}
}

// TestFixedEndsOfALaw: a law of chance has no order, but its ends are judged.
func TestFixedEndsOfALaw(t *testing.T) {
	s := opened(t, small+"[care]\nresponse = { low = { exponential = \"9 h\" }, likely = \"48 h\", high = { exponential = \"72 h\" } }\n")
	in := s.Inputs()[0]
	if in.Axis.Numeric || in.Low.Text != "exponential, mean 9 h" || !math.IsNaN(in.Low.Shown) {
		t.Errorf("%+v", in)
	}
	if f := with(t, s, in.Axis.Set(in.High)); f.Care.Response != (array.Exponential{Mean: 72}) {
		t.Errorf("%+v", f.Care)
	}
}

// TestWithChoicesKeepsRanges: the text that suggests choices is read as the same
// ranges.
func TestWithChoicesKeepsRanges(t *testing.T) {
	f := opened(t, ranged).File()
	again := opened(t, string(WithChoices([]byte(ranged), f, f.Site.Choices)))
	if got, want := len(again.spans), len(opened(t, ranged).spans)-1; got != want { // that of the drives is written out
		t.Errorf("%d ranges, want %d", got, want)
	}
}
