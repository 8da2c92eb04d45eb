package axis

import (
	"fmt"
	"math"
	"reflect"
	"strings"
	"testing"

	"arrayodds/array"
)

// TestGivenInputs: the ranges of the file come first, in its order, and nothing has
// a default range beside one that is given.
func TestGivenInputs(t *testing.T) {
	t.Parallel()
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
	t.Parallel()
	extreme := strings.NewReplacer(`{ afr = "1.5 %" }`, `{ afr = "1000 %" }`+"\nread_error = \"1 in 1e10 bits\"\nhazard_multiplier = 1000\nlatent_defects = { mean = \"1e10 h\" }\nbatch_variance = 100").Replace(small) +
		"hot_spares = 1\n[care]\nresponse = { exponential = \"50 y\" }\nrebuild_share = 1\nnotice = \"0 h\"\nscrub = \"1 s\"\n[hazards]\ndegraded_multiplier = 1000\ncommon_cause = { per_year = 1000, each_drive = 1 }\n"
	record := strings.Replace(small, `{ afr = "1.5 %" }`, "{ failures = 0, drive_days = 5000 }", 1)
	for _, s := range []*Source{openedFile(t, demo), openedFile(t, "../testdata/everything.toml"), opened(t, ranged), opened(t, extreme), opened(t, record)} {
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
	t.Parallel()
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
	t.Parallel()
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
	t.Parallel()
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

// TestFixedEndsOfALaw: a law of chance has no order, but its ends are judged.
func TestFixedEndsOfALaw(t *testing.T) {
	t.Parallel()
	s := opened(t, small+"[care]\nresponse = { low = { exponential = \"9 h\" }, likely = \"48 h\", high = { exponential = \"72 h\" } }\n")
	in := s.Inputs()[0]
	if in.Axis.Numeric || in.Low.Text != "exponential, mean 9 h" || !math.IsNaN(in.Low.Shown) {
		t.Errorf("%+v", in)
	}
	if f := with(t, s, in.Axis.Set(in.High)); f.Care.Response != (array.Exponential{Mean: 72}) {
		t.Errorf("%+v", f.Care)
	}
}
