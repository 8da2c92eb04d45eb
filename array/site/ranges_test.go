package site

import (
	"fmt"
	"reflect"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site/rewrite"
	"arrayodds/array/toml"
)

// TestRanges: the likely value counts, and the ends are listed.
func TestRanges(t *testing.T) {
	t.Parallel()
	s := opened(t, ranged)
	plain := strings.NewReplacer(`drives = 8`, "drives = 8\n[care]\nresponse = { lognormal = { median = \"24 h\", p90 = \"72 h\" } }\nrebuild_share = 0.4\nscrub = { weibull = { scale = \"168 h\", shape = 3 } }\n"+
		"[hazards]\ncommon_cause = { per_year = 0.01, each_drive = 0.5 }\ndegraded_multiplier = 1.5\n").Replace(small)
	got, want := s.File().Site, opened(t, plain).File().Site
	for _, site := range []*array.Site{&got, &want} {
		known(site) // and the drives are those of the choices
		site.Drives = nil
	}
	if !reflect.DeepEqual(got, want) {
		t.Errorf("%+v\nwant\n%+v", got, want)
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

// TestRefuseRanges: each of these is one error that says these words.
func TestRefuseRanges(t *testing.T) {
	t.Parallel()
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
	for i := range toml.MaxRanges + 1 {
		fmt.Fprintf(&many, "[[drives]]\nlabel = \"%d\"\ncapacity = \"1 TB\"\nlife = { afr_by_year = [%s] }\ntransfer = \"100 MB/s\"\n", i, strings.Repeat(`{ low = "1 %", likely = "2 %", high = "3 %" },`, 50))
	}
	if _, err := Read(strings.NewReader(small+many.String()), "s.toml"); err == nil || !strings.Contains(err.Error(), "more than 100 ranges") {
		t.Error(err)
	}
}

// TestWithChoicesKeepsRanges: the text that suggests choices is read as the same
// ranges.
func TestWithChoicesKeepsRanges(t *testing.T) {
	t.Parallel()
	was := opened(t, ranged)
	again := opened(t, string(rewrite.WithChoices([]byte(ranged), was.File().Site.Cameras, was.File().Site.Choices)))
	if got, want := len(again.Ranges), len(was.Ranges)-1; got != want { // that of the drives is written out
		t.Errorf("%d ranges, want %d", got, want)
	}
}

func opened(t testing.TB, in string) *Document {
	t.Helper()
	d, err := Open(strings.NewReader(in), "s.toml")
	if err != nil {
		t.Fatal(err)
	}
	return d
}
