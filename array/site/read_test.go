package site

import (
	"errors"
	"flag"
	"os"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/unit"
)

var update = flag.Bool("update", false, "write the golden files anew")

// small is a file with what is required, and no more; ranged is the same with
// ranges in many places.
var (
	small  = mustRead("testdata/small.toml")
	ranged = mustRead("testdata/ranges.toml")
)

func mustRead(name string) string {
	b, err := os.ReadFile(name)
	if err != nil {
		panic(err)
	}
	return string(b)
}

// TestManyErrors: all errors of a bad file at once, in order.
func TestManyErrors(t *testing.T) {
	t.Parallel()
	const name, golden = "testdata/many-errors.toml", "testdata/many-errors.golden"
	_, err := Read(strings.NewReader(readText(t, name)), "site.toml")
	if err == nil {
		t.Fatal("it was accepted")
	}
	got := err.Error() + "\n"
	if *update {
		if err := os.WriteFile(golden, []byte(got), 0o644); err != nil {
			t.Fatal(err)
		}
	}
	if want := readText(t, golden); got != want {
		t.Errorf("%s\nwant\n%s", got, want)
	}
}

// TestDefaults: what the smallest file gives, and that each default is listed.
func TestDefaults(t *testing.T) {
	t.Parallel()
	f, err := Read(strings.NewReader(small), "")
	if err != nil {
		t.Fatal(err)
	}
	c := f.Site.Choices[0]
	want := array.Care{
		Notice: array.Fixed{Hours: 1}, Response: array.Fixed{Hours: 24}, Restock: array.Fixed{Hours: 72},
		RebuildShare: 0.5, RebuildFloor: 20e6,
	}
	if c.Care != want {
		t.Errorf("care %+v", c.Care)
	}
	if c.Groups != 1 || c.HotSpares != 0 || c.Recorder != nil || c.Drive.HazardMultiplier != 1 || c.Drive.BatchVariance != 0 ||
		c.Drive.ReadErrorBits != 0 || c.Drive.LatentMean != 0 || c.Drive.Price == c.Drive.Price || c.Drive.Power == c.Drive.Power {
		t.Errorf("%+v", c)
	}
	if (f.Site.Hazards != array.Hazards{DegradedMultiplier: 1}) || f.Run != (Run{1, 0.05, 20_000_000}) {
		t.Errorf("%+v %+v", f.Site.Hazards, f.Run)
	}
	listed := map[string]Assumption{}
	for _, a := range f.Assumptions {
		if _, twice := listed[a.Path]; twice {
			t.Errorf("%s is listed twice", a.Path)
		}
		listed[a.Path] = a
	}
	for path, text := range map[string]string{
		"cameras": "none: choices are compared by capacity alone", "drives.12 TB.hazard_multiplier": "1",
		"drives.12 TB.batch_variance": "0", "drives.12 TB.read_error": "none", "drives.12 TB.latent_defects": "none",
		"choices.Eight.groups": "1", "choices.Eight.hot_spares": "0", "care.notice": "1 h", "care.response": "24 h",
		"care.restock": "72 h", "care.rebuild_share": "0.5", "care.rebuild_floor": "20 MB/s",
		"care.controller_limit": "none", "care.rebuilds": "serial", "care.unreadable": "skip", "care.scrub": "none",
		"hazards.degraded_multiplier": "1", "run.seed": "1", "run.accuracy": "5 %", "run.max_trials": "20000000",
	} {
		if a := listed[path]; a.Text != text || !a.Default {
			t.Errorf("%s is listed as %+v", path, a)
		}
	}
	for _, path := range []string{"service_life", "drives.12 TB.life", "choices.Eight.drives"} {
		if a := listed[path]; a.Default || a.Text == "" {
			t.Errorf("%s is listed as %+v", path, a)
		}
	}
}

// TestAssumptionsAreInOrder: as in the file, the defaults of a table after what
// it gives, those of tables that are not there last.
func TestAssumptionsAreInOrder(t *testing.T) {
	t.Parallel()
	f, err := Read(strings.NewReader(small+"[choices.care]\nresponse = { exponential = \"30 h\" }\n[run]\nseed = 7\n"), "")
	if err != nil {
		t.Fatal(err)
	}
	var got []string
	for _, a := range f.Assumptions {
		got = append(got, a.Path)
	}
	rest := got
	for _, path := range []string{
		"service_life", "name", "drives.12 TB.label", "drives.12 TB.transfer", "drives.12 TB.power",
		"choices.Eight.label", "choices.Eight.groups", "choices.Eight.care.response", "run.seed", "run.max_trials", "care.notice", "recorder",
	} {
		i := 0
		for i < len(rest) && rest[i] != path {
			i++
		}
		if i == len(rest) {
			t.Fatalf("%s is not in its place among\n%s", path, strings.Join(got, "\n"))
		}
		rest = rest[i+1:]
	}
}

// Schroeder, Gibson, "Disk failures in the real world", FAST 2007, abstract: an
// MTTF of 1 000 000 h is an annual failure rate of 0.88 %.
func TestPublishedRate(t *testing.T) {
	t.Parallel()
	f, err := Read(strings.NewReader(strings.Replace(small, `afr = "1.5 %"`, `mtbf = "1000000 h"`, 1)), "")
	if err != nil {
		t.Fatal(err)
	}
	life := f.Site.Choices[0].Drive.Life.(array.ConstantRate)
	if got := unit.FormatPercent(life.AFR, 2); got != "0.88 %" {
		t.Errorf("an AFR of %s", got)
	}
}

func TestMarksAndLineEndsOfOtherSystems(t *testing.T) {
	t.Parallel()
	for name, in := range map[string]string{
		"byte order mark": "\ufeff" + small,
		"CRLF":            strings.ReplaceAll(small, "\n", "\r\n"),
		"both":            "\ufeff" + strings.ReplaceAll(small, "\n", "\r\n"),
		"no last newline": strings.TrimSuffix(small, "\n"),
	} {
		if _, err := Read(strings.NewReader(in), ""); err != nil {
			t.Errorf("%s: %v", name, err)
		}
		bad := strings.Replace(in, `"RAID 6"`, `"RIAD 6"`, 1)
		var errs Errors
		if _, err := Read(strings.NewReader(bad), ""); !errors.As(err, &errs) || errs[0].Line != 10 {
			t.Errorf("%s: %v", name, err)
		}
	}
}

type brokenReader struct{}

var errBroken = errors.New("the disk is gone")

func (brokenReader) Read([]byte) (int, error) { return 0, errBroken }

func TestErrorOfTheReader(t *testing.T) {
	t.Parallel()
	if _, err := Read(brokenReader{}, ""); !errors.Is(err, errBroken) {
		t.Error(err)
	}
}

func TestDemoSite(t *testing.T) {
	t.Parallel()
	f := readFile(t, "../../testdata/saltmarsh.toml")
	cameras, short := 0, 0
	for _, c := range f.Site.Cameras {
		cameras += c.Count
	}
	models, layouts := map[string]bool{}, map[array.Level]bool{}
	for _, c := range f.Site.Choices {
		models[c.Drive.Label], layouts[c.Layout.Level] = true, true
		z, err := f.Site.Size(c)
		if err != nil {
			t.Errorf("%s: %v", c.Label, err)
		}
		if !z.Meets {
			short++
		}
	}
	if cameras < 40 || len(f.Site.Cameras) != 3 || len(models) != 3 || len(f.Site.Choices) != 8 || short == 0 || short == 8 {
		t.Errorf("%d cameras in %d groups, %d drive models, %d choices of which %d fall short", cameras, len(f.Site.Cameras), len(models), len(f.Site.Choices), short)
	}
	if !layouts[array.JBOD] || !layouts[array.TripleParity] {
		t.Error("it does not go from JBOD to triple parity")
	}
}

func TestReadWithoutChoices(t *testing.T) {
	t.Parallel()
	body, _, _ := strings.Cut(small, "[[choices]]")
	if _, err := Read(strings.NewReader(body), ""); err == nil {
		t.Error("without choices it was accepted")
	}
	f, err := Read(strings.NewReader(body), "", ChoicesOptional())
	if err != nil || len(f.Site.Choices) != 0 || len(f.Site.Drives) != 1 || f.Care.RebuildShare != 0.5 {
		t.Errorf("%+v, %v", f, err)
	}
}
