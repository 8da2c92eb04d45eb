package site

import (
	"math"
	"os"
	"reflect"
	"strings"
	"testing"
	"time"

	"arrayodds/array"
	"arrayodds/array/unit"
)

func readFile(t *testing.T, name string) *File {
	t.Helper()
	in, err := os.Open(name)
	if err != nil {
		t.Fatal(err)
	}
	defer in.Close()
	f, err := Read(in, name)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// TestEveryKeyLands reads a file with every key but the logo and looks for each value.
func TestEveryKeyLands(t *testing.T) {
	t.Parallel()
	f := readFile(t, "testdata/everything.toml")
	nan := math.NaN()
	drives := map[string]array.Drive{
		"rate": {Label: "rate", Capacity: 12e12, Life: array.ConstantRate{AFR: 0.015}, HazardMultiplier: 1.25,
			BatchVariance: 0.5, ReadErrorBits: 1e15, LatentMean: 9259, Transfer: 210e6, Price: 290.5, Power: 7, Weight: 0.72, Rated: 550e12},
		"mtbf": {Label: "mtbf", Capacity: 12 << 40, Life: array.ConstantRate{AFR: 0.00876}, HazardMultiplier: 1,
			Transfer: 200 << 20, Price: nan, Power: nan, Weight: 0.7},
		"weibull": {Label: "weibull", Capacity: 8e12, Life: array.WeibullLife{Shape: 1.12, Scale: 461386, Min: 100}, HazardMultiplier: 1,
			Transfer: 200e6, Price: nan, Power: nan, Weight: 0.7},
	}
	week := unit.Week{{From: 0, To: 6}, {From: 142, To: 150}, {From: 166, To: 168}}
	scrub := array.WeibullTime{Min: 6, Scale: 168, Shape: 3}
	siteCare := array.Care{
		Notice: array.Fixed{Hours: 2}, Response: array.WeibullTime{Scale: 12, Shape: 2},
		Restock:      array.OpenHours{Within: 16, Week: week},
		RebuildShare: 0.4, RebuildFloor: 30e6, ControllerLimit: 500e6, Parallel: true, Stop: true,
		Scrub: array.Fixed{Hours: 336}, Restore: array.Exponential{Mean: 48},
	}
	office := unit.Week{{From: 8, To: 17}, {From: 32, To: 41}, {From: 56, To: 65}, {From: 80, To: 89}, {From: 104, To: 113}}
	careA := array.Care{
		Notice: array.Exponential{Mean: 3}, Response: array.OpenHours{Within: 8, Week: office},
		Restock:      array.Lognormal{Median: 24, P90: 72},
		RebuildShare: 0.25, RebuildFloor: 11e6, Scrub: scrub,
	}
	careB := siteCare
	careB.Response = array.Fixed{Hours: 5}
	recorder := array.Recorder{
		Price: 2400, Bays: 8, Licences: &array.Licences{Included: 8, Each: 45.5}, Link: 1e9, WriteLimit: 60e6, IdlePower: 90,
		Supply:     &array.Part{PerYear: 0.05, Restore: 48, Redundant: true},
		SystemDisk: &array.Part{PerYear: 0.01, Restore: 24, Redundant: true},
		Mains:      &array.Mains{PerYear: 2, Mean: 1.3, UPSBridges: 0.5},
		SwapDown:   0.5,
		RackUnits:  2, Weight: 14, Rails: 38.5, PowerFactor: 0.95,
		Numbering: array.Numbering{Columns: 4, Bottom: true, Right: true, Down: true},
	}
	recorderA := array.Recorder{
		Price: 4000, Bays: 24, Licences: &array.Licences{Each: 60}, Link: 1e10, WriteLimit: 1e9, IdlePower: 140,
		Supply: &array.Part{PerYear: 0.3, Restore: 5}, SystemDisk: &array.Part{PerYear: 0.4, Restore: 6},
		Mains:     &array.Mains{PerYear: 7, Mean: 8},
		RackUnits: 2, Weight: 14, Rails: 38.5, PowerFactor: 0.95,
		Numbering: array.Numbering{Columns: 4, Bottom: true, Right: true, Down: true},
	}
	recorderB := recorder
	recorderB.Bays = 9
	want := &File{
		Site: array.Site{
			Name: "Lighthouse yard", ServiceLife: 7 * 8760,
			Cameras: []array.Cameras{
				{Label: "Gate", Count: 3, BitRate: 5e6, HoursPerDay: 12, Activity: 0.5, Retention: 240},
				{Label: "Cameras 2", Count: 1000, BitRate: 2e6, HoursPerDay: 24, Activity: 0.25, Retention: 336},
				{Label: "Yard", Count: 4, BitRate: 1920 * 1080 * 12.5 * 0.05, Picture: array.Picture{Pixels: 1920 * 1080, FramesPerSecond: 12.5, Codec: array.H265},
					HoursPerDay: 20, Activity: 0.3, Retention: 1440},
			},
			Choices: []array.Choice{
				{Label: "A", Drive: drives["rate"], Layout: array.Layout{Level: array.RAID60}, Drives: 16, Groups: 2, HotSpares: 3, Care: careA, Recorder: &recorderA},
				{Label: "B", Drive: drives["mtbf"], Layout: array.Layout{Level: array.Erasure, Data: 6, Parity: 3}, Drives: 9, Groups: 1, Care: careB, Recorder: &recorderB},
				{Label: "C", Drive: drives["weibull"], Layout: array.Layout{Level: array.JBOD}, Drives: 1, Groups: 1, Care: siteCare, Recorder: &recorder},
			},
			Growth: 0.2, Widths: map[array.Level]int{array.RAID0: 9, array.RAID10: 18, array.RAID5: 10, array.RAID6: 14, array.RAID50: 11, array.RAID60: 13, array.TripleParity: 19},
			Hazards:  array.Hazards{CommonPerYear: 0.02, CommonEachDrive: 0.5, DegradedMultiplier: 1.5},
			Currency: "EUR", EnergyPrice: 0.31,
			Document: array.Document{Customer: "Lighthouse Trust", PreparedBy: "Works office", Reference: "LY-7",
				ValidUntil: time.Date(2028, 2, 29, 0, 0, 0, 0, time.UTC)},
			Build: array.Build{Batches: 3, Lead: 21 * 24, TwoPeopleFrom: 16, DrillEvery: 26 * 168, BatteryLife: 3 * 8760,
				AlarmsTo: "Duty office", TimeSource: "NTP of the yard",
				UPS: &array.UPS{Rated: 900, Load: []float64{100, 300}, Lasts: []float64{1, 0.25}}},
			Goal: &array.Goal{LossChance: 1e-4, MissingClip: 0.002, Budget: 9000},
			Options: []array.Option{
				{Label: "Technician within 4 h", Price: 100, PerYear: 320, Excludes: []string{"Nobody"}, Set: []array.OptionSetting{
					{Path: "care.response", Value: `"4 h"`, Line: 176}, {Path: "recorder.mains.ups_bridges", Value: `"2 h"`, Line: 176}}},
				{Label: "Nobody", Set: []array.OptionSetting{{Path: "care.response", Value: `{ exponential = "168 h" }`, Line: 181}}},
			},
		},
		Care: siteCare, Recorder: &recorder,
		Run: Run{Seed: 1<<63 - 1, Accuracy: 0.02, MaxTrials: 1e10},
	}
	known(&f.Site)
	known(&want.Site)
	got := *f
	got.Assumptions = nil
	var catalogue []string
	for _, d := range got.Site.Drives {
		catalogue = append(catalogue, d.Label)
	}
	if strings.Join(catalogue, " ") != "rate mtbf weibull bathtub record" {
		t.Errorf("the drives are %q", catalogue)
	}
	got.Site.Drives = nil
	if !reflect.DeepEqual(&got, want) {
		t.Errorf("read\n%+v\nwant\n%+v", got, *want)
		for i := range want.Site.Choices {
			if g, w := got.Site.Choices[i], want.Site.Choices[i]; !reflect.DeepEqual(g, w) {
				t.Errorf("choice %s\n%+v %+v\nwant\n%+v %+v", w.Label, g, *g.Recorder, w, *w.Recorder)
			}
		}
	}
	for label, life := range map[string]array.Life{ // the first has a log
		"bathtub": array.RateByYear{AFR: []float64{0.02, 0.012, 0}},
		"record":  array.FieldRecord{Failures: 50, DriveDays: 3555491},
	} {
		in := strings.ReplaceAll(readText(t, "testdata/everything.toml"), `drive = "weibull"`, `drive = "`+label+`"`)
		f, err := Read(strings.NewReader(in), "")
		if err != nil {
			t.Fatal(err)
		}
		got := f.Site.Choices[2].Drive.Life
		if u, ok := got.(array.UpdatedLife); ok {
			got = u.Of
		}
		if !reflect.DeepEqual(got, life) {
			t.Errorf("%s: %+v, want %+v", label, got, life)
		}
	}
}

// TestFittedLife: a Weibull life that comes of a fit brings its standard errors.
func TestFittedLife(t *testing.T) {
	t.Parallel()
	everything := readText(t, "testdata/everything.toml")
	plain := everything[strings.Index(everything, `label = "weibull"`):]
	plain = plain[strings.Index(plain, "life = {"):]
	plain = plain[:strings.Index(plain, "\n")]
	with := func(life string) string { return strings.ReplaceAll(everything, plain, "life = "+life) }
	f, err := Read(strings.NewReader(with(`{ shape = 1.2, scale = "50000 h", shape_error = "9 %", scale_error = "14 %", correlation = -0.8 }`)), "")
	if err != nil {
		t.Fatal(err)
	}
	want := array.FittedWeibull{Shape: 1.2, Scale: 50000, ShapeError: 0.09, ScaleError: 0.14, Correlation: -0.8}
	if got := f.Site.Choices[2].Drive.Life; got != want {
		t.Errorf("%+v, want %+v", got, want)
	}
	for _, bad := range []string{
		`{ shape = 1.2, scale = "50000 h", shape_error = 0.09 }`,
		`{ shape = 1.2, scale = "50000 h", shape_error = "9 %", min = "10 h" }`,
		`{ shape = 1.2, scale = "50000 h", shape_error = "9 %", correlation = 1 }`,
	} {
		if _, err := Read(strings.NewReader(with(bad)), ""); err == nil {
			t.Errorf("%s is accepted", bad)
		}
	}
}

func readText(t *testing.T, name string) string {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return string(b)
}

// known gives prices and powers that are not known a value that equals itself.
func known(s *array.Site) {
	if math.IsNaN(s.EnergyPrice) {
		s.EnergyPrice = -1
	}
	for i := range s.Choices {
		for _, v := range []*float64{&s.Choices[i].Drive.Price, &s.Choices[i].Drive.Power} {
			if math.IsNaN(*v) {
				*v = -1
			}
		}
	}
}
