package axis

import (
	"errors"
	"fmt"
	"math"
	"os"
	"reflect"
	"slices"
	"strings"
	"sync"
	"testing"
	"testing/fstest"

	"pgregory.net/rapid"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/toml"
)

func opened(t testing.TB, in string, opts ...site.Option) *Source {
	t.Helper()
	s, err := Open(strings.NewReader(in), "s.toml", opts...)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func openedFile(t testing.TB, name string) *Source {
	t.Helper()
	b, err := os.ReadFile(name)
	if err != nil {
		t.Fatal(err)
	}
	return opened(t, string(b))
}

const demo = "../../../testdata/saltmarsh.toml"

func axis(t testing.TB, s *Source, typed string, points int) *Axis {
	t.Helper()
	a, err := s.Axis(typed, points)
	if err != nil {
		t.Fatal(err)
	}
	return a
}

func with(t testing.TB, s *Source, set ...Setting) *site.File {
	t.Helper()
	f, err := s.With(set...)
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// same compares what is simulated, and not how it is listed. Figures that are not
// known are given a value that equals itself.
func same(a, b *site.File) bool {
	plain := func(f *site.File) site.File {
		c := *f
		c.Assumptions = nil
		c.Site.EnergyPrice = known1(c.Site.EnergyPrice)
		c.Site.Drives = append([]array.Drive(nil), f.Site.Drives...)
		c.Site.Choices = append([]array.Choice(nil), f.Site.Choices...)
		for i := range c.Site.Drives {
			c.Site.Drives[i] = knownDrive(c.Site.Drives[i])
		}
		for i := range c.Site.Choices {
			o := &c.Site.Choices[i]
			o.Drive, o.Recorder = knownDrive(o.Drive), knownRecorder(o.Recorder)
		}
		c.Recorder = knownRecorder(f.Recorder)
		return c
	}
	x, y := plain(a), plain(b)
	return reflect.DeepEqual(x, y)
}

func knownDrive(d array.Drive) array.Drive {
	d.Price, d.Power = known1(d.Price), known1(d.Power)
	return d
}

func knownRecorder(r *array.Recorder) *array.Recorder {
	if r == nil {
		return nil
	}
	c := *r
	c.Price, c.IdlePower = known1(c.Price), known1(c.IdlePower)
	return &c
}

func known1(v float64) float64 {
	if math.IsNaN(v) {
		return -1
	}
	return v
}

// TestOwnValueChangesNothing: the likely values of any inputs together give the
// site as it stands, but for those of records, which are known rates.
func TestOwnValueChangesNothing(t *testing.T) {
	t.Parallel()
	for _, s := range []*Source{openedFile(t, demo), openedFile(t, "../testdata/everything.toml"), opened(t, ranged)} {
		inputs := s.Inputs()
		rapid.Check(t, func(r *rapid.T) {
			var set []Setting
			for _, in := range inputs {
				if rapid.Bool().Draw(r, in.Axis.Path) && in.Range != recorded(*array.FieldRecord{DriveDays: 1}.About().Rate, false).words {
					set = append(set, in.Axis.Set(in.Likely))
				}
			}
			f, err := s.With(set...)
			if err != nil {
				r.Fatal(err)
			}
			if !same(f, s.File()) {
				r.Fatalf("%v changes the site", set)
			}
		})
	}
}

// TestSettingDoesNotTouchTheSource: many read it at a time, and it stays as it is.
func TestSettingDoesNotTouchTheSource(t *testing.T) {
	t.Parallel()
	s := openedFile(t, demo)
	before := opened(t, readText(t, demo))
	var wait sync.WaitGroup
	for _, typed := range []string{"care.response=4 h..168 h", "choices.*.drive=8 TB,18 TB", "drives.*.life=x0.5..x2", "choices.*.care.response.lognormal.median=20 h..30 h", "care.scrub=none,{ exponential = \"9 h\" }"} {
		a := axis(t, s, typed, 8)
		for _, v := range a.Values {
			wait.Go(func() {
				if _, err := s.With(a.Set(v), Resize()); err != nil {
					t.Error(err)
				}
			})
		}
	}
	wait.Wait()
	// How numbers are read is functions, which are never equal.
	for _, u := range append(slices.Clone(s.doc.Ranges), before.doc.Ranges...) {
		u.ReadLow, u.ReadHigh = toml.ReadValue{}, toml.ReadValue{}
	}
	if !reflect.DeepEqual(s.doc.Root, before.doc.Root) || !same(with(t, s), before.File()) {
		t.Error("the source has changed")
	}
}

// TestSettingsLand looks for what settings do in the site that comes of them.
func TestSettingsLand(t *testing.T) {
	t.Parallel()
	s := openedFile(t, demo)
	set := func(typed string) Setting {
		a := axis(t, s, typed, 3)
		return a.Set(a.Values[0])
	}
	choice := func(f *site.File, i int) array.Choice { return f.Site.Choices[i] }
	for _, c := range []struct {
		typed string
		holds func(f *site.File) bool
	}{
		{"care.response=4 h", func(f *site.File) bool { return choice(f, 0).Care.Response == array.Fixed{Hours: 4} }},
		{"care.response=x0.5", func(f *site.File) bool {
			return choice(f, 7).Care.Response == array.Lognormal{Median: 18, P90: 48}
		}},
		{"care.scrub=x2", func(f *site.File) bool {
			return f.Care.Scrub == array.WeibullTime{Min: 12, Scale: 336, Shape: 3}
		}},
		{"care.restock=×3", func(f *site.File) bool { return f.Care.Restock.(array.OpenHours).Within == 48 }},
		{"care.scrub=none", func(f *site.File) bool { return f.Care.Scrub == nil }},
		{"care.restore=48 h", func(f *site.File) bool { return f.Care.Restore == array.Fixed{Hours: 48} }},
		{"care.response.exponential=30 h", func(f *site.File) bool { return f.Care.Response == array.Exponential{Mean: 30} }},
		{`care.response={ weibull = { scale = "12 h", shape = 2 } }`, func(f *site.File) bool {
			return f.Care.Response == array.WeibullTime{Scale: 12, Shape: 2}
		}},
		{"choices.RAID 5, 6 x 18 TB.care.response.lognormal.median=20 h", func(f *site.File) bool {
			return choice(f, 1).Care.Response == array.Lognormal{Median: 20, P90: 96} && choice(f, 0).Care.Response == array.Lognormal{Median: 36, P90: 96}
		}},
		{"choices.*.care.notice=3 h", func(f *site.File) bool {
			return choice(f, 6).Care.Notice == array.Fixed{Hours: 3} && choice(f, 6).Care.Parallel && f.Care.Notice == array.Fixed{Hours: 2}
		}},
		{"choices.RAID 5, 6 x 18 TB.recorder.power.restore=9 h", func(f *site.File) bool {
			return *choice(f, 1).Recorder.Supply == array.Part{PerYear: 0.05, Restore: 9} && choice(f, 1).Recorder.Bays == 8 && f.Recorder.Supply.Restore == 48
		}},
		{"recorder.swap.powered_down=1 h", func(f *site.File) bool { return f.Recorder.SwapDown == 1 }},
		{"recorder.power.redundant=true", func(f *site.File) bool { return f.Recorder.Supply.Redundant }},
		{"care.unreadable=stop", func(f *site.File) bool { return f.Care.Stop }},
		{"drives.12 TB.life.afr=0.5 %", func(f *site.File) bool { return f.Site.Drives[1].Life == array.ConstantRate{AFR: 0.005} }},
		{`drives."12 TB".life.mtbf=876000 h`, func(f *site.File) bool { return f.Site.Drives[1].Life == array.ConstantRate{AFR: 0.01} }},
		{"drives.12 TB.life.afr_by_year.2=3 %", func(f *site.File) bool { return f.Site.Drives[1].Life.(array.RateByYear).AFR[1] == 0.03 }},
		{"drives.12 TB.life.afr_by_year=x2", func(f *site.File) bool {
			afr := f.Site.Drives[1].Life.(array.RateByYear).AFR
			return afr[0] == 0.038 && afr[4] == 0.046
		}},
		{"drives.*.life=x2", func(f *site.File) bool {
			return f.Site.Drives[0].HazardMultiplier == 3 && f.Site.Drives[2].HazardMultiplier == 2 && choice(f, 0).Drive.HazardMultiplier == 2
		}},
		{"drives.8 TB.hazard_multiplier=x2", func(f *site.File) bool { return f.Site.Drives[0].HazardMultiplier == 3 }},
		{"drives.8 TB.latent_defects=none", func(f *site.File) bool { return f.Site.Drives[0].LatentMean == 0 }},
		{"drives.8 TB.latent_defects=x0.5", func(f *site.File) bool { return f.Site.Drives[0].LatentMean == 30000 }},
		{"drives.8 TB.read_error=1 in 1e15 bits", func(f *site.File) bool { return f.Site.Drives[0].ReadErrorBits == 1e15 }},
		{"cameras.*.retention=x2", func(f *site.File) bool {
			return f.Site.Cameras[0].Retention == 1440 && f.Site.Cameras[2].Retention == 672
		}},
		{"cameras.Ramps and quay.count=x1.5", func(f *site.File) bool { return f.Site.Cameras[0].Count == 36 }},
		{"hazards.common_cause.per_year=0.1", func(f *site.File) bool { return f.Site.Hazards.CommonPerYear == 0.1 }},
		{"choices.*.hot_spares=0", func(f *site.File) bool { return choice(f, 4).HotSpares == 0 && f.Unfit == nil }},
		{"choices.*.drive=8 TB", func(f *site.File) bool { return choice(f, 7).Drive.Capacity == 8e12 && choice(f, 7).Drives == 8 }},
		{"service_life=10 y", func(f *site.File) bool { return f.Site.ServiceLife == 87600 }},
	} {
		if f := with(t, s, set(c.typed)); !c.holds(f) {
			t.Errorf("%s gives\n%+v", c.typed, f)
		}
	}
	// What multiplies a life stands beside its values, whichever comes first.
	life, multiplier, afr := set("drives.*.life=x2"), set("drives.8 TB.hazard_multiplier=5"), set("drives.8 TB.life.afr=1 %")
	for _, all := range [][]Setting{{life, multiplier, afr}, {afr, multiplier, life}} {
		if d := with(t, s, all...).Site.Drives[0]; d.HazardMultiplier != 10 || (d.Life != array.ConstantRate{AFR: 0.01}) {
			t.Errorf("%+v", d)
		}
	}
}

// TestSettingOfWhatIsNotThere: defaults, and tables that the file has not.
func TestSettingOfWhatIsNotThere(t *testing.T) {
	t.Parallel()
	s := opened(t, small)
	for typed, holds := range map[string]func(f *site.File) bool{
		"care.scrub=168 h":                      func(f *site.File) bool { return f.Site.Choices[0].Care.Scrub == array.Fixed{Hours: 168} },
		"care.response=x2":                      func(f *site.File) bool { return f.Care.Response == array.Fixed{Hours: 48} },
		"choices.*.care.response=5 h":           func(f *site.File) bool { return f.Site.Choices[0].Care.Response == array.Fixed{Hours: 5} },
		"choices.Eight.care.notice=x3":          func(f *site.File) bool { return f.Site.Choices[0].Care.Notice == array.Fixed{Hours: 3} },
		"choices.*.recorder.bays=9":             func(f *site.File) bool { return f.Site.Choices[0].Recorder.Bays == 9 && f.Recorder == nil },
		"drives.12 TB.life=x0.5":                func(f *site.File) bool { return f.Site.Drives[0].HazardMultiplier == 0.5 },
		"drives.12 TB.latent_defects.mean=99 h": func(f *site.File) bool { return f.Site.Drives[0].LatentMean == 99 },
		"drives.12 TB.price=300":                func(f *site.File) bool { return f.Site.Drives[0].Price == 300 },
		"hazards.degraded_multiplier=2":         func(f *site.File) bool { return f.Site.Hazards.DegradedMultiplier == 2 },
		`hazards.common_cause={ per_year = 0.1, each_drive = 1 }`: func(f *site.File) bool {
			return f.Site.Hazards.CommonPerYear == 0.1 && f.Site.Hazards.CommonEachDrive == 1
		},
	} {
		a := axis(t, s, typed, 2)
		if f := with(t, s, a.Set(a.Values[0])); !holds(f) {
			t.Errorf("%s gives\n%+v", typed, f)
		}
	}
	one, each := axisOrNil(s, "hazards.common_cause.per_year=0.1"), axisOrNil(s, "hazards.common_cause.each_drive=0.5")
	if one != nil || each != nil {
		t.Error("half of a common cause is accepted")
	}
}

func axisOrNil(s *Source, typed string) *Axis {
	a, _ := s.Axis(typed, 2)
	return a
}

// TestLabels: labels may hold points and quotes, and the longest that fits is
// meant.
func TestLabels(t *testing.T) {
	t.Parallel()
	drive := func(label string) string {
		return fmt.Sprintf("[[drives]]\nlabel = %q\ncapacity = \"1 TB\"\nlife = { afr = \"1 %%\" }\ntransfer = \"100 MB/s\"\n", label)
	}
	s := opened(t, small+drive("a")+drive("a.life")+drive(`8" = big`)+drive("*")+drive(strings.Repeat("long ", 20)+"x"))
	for path, item := range map[string]int{
		"a.price": 1, "a.life.price": 2, `"a.life".price`: 2, `"8\" = big".price`: 3, `"*".price`: 4,
		strings.Repeat("long ", 20) + "x.price": 5,
	} {
		a, err := s.Axis("drives."+path+"=7", 2)
		if err != nil {
			t.Error(err)
			continue
		}
		f := with(t, s, a.Set(a.Values[0]))
		for i, d := range f.Site.Drives {
			if (d.Price == 7) != (i == item) {
				t.Errorf("%s gives drive %d a price of %v", path, i, d.Price)
			}
		}
		// The path as it is said can be typed again.
		if again, err := s.Axis(a.Path+"=7", 2); err != nil || again.Path != a.Path {
			t.Errorf("%s: %v", a.Path, err)
		}
	}
}

// TestScheduleIsReadOnce: other paths work, the file is opened once, and what it says is
// listed by the first reading alone.
func TestScheduleIsReadOnce(t *testing.T) {
	t.Parallel()
	const rows = "Location;Count;Bitrate (Mbit/s);Retention (days)\nRamps;24;6;30\nHalls;18;4,5;30\nCar park;14;2;14\n"
	files := fstest.MapFS{"s.csv": {Data: []byte(rows)}}
	s := opened(t, "cameras = \"s.csv\"\n"+small, site.Beside(files))
	delete(files, "s.csv")
	if len(s.File().Assumptions) < 3 {
		t.Errorf("listed: %v", s.File().Assumptions)
	}
	a := axis(t, s, "drives.12 TB.life.afr=0.5 %..6 %", 9)
	f := with(t, s, a.Set(a.Values[0]))
	if len(f.Site.Cameras) != 3 || f.Schedule != "s.csv" || len(f.Assumptions) != 0 {
		t.Errorf("%+v", f)
	}
}

// TestClash: two values for one place.
func TestClash(t *testing.T) {
	t.Parallel()
	s := openedFile(t, demo)
	first := axis(t, s, "care.response=4 h", 2)
	for _, typed := range []string{"care.response=5 h", "care.response=x2", "care.response.lognormal.median=20 h"} {
		second := axis(t, s, typed, 2)
		for _, set := range [][]Setting{{first.Set(first.Values[0]), second.Set(second.Values[0])}, {second.Set(second.Values[0]), first.Set(first.Values[0])}} {
			_, err := s.With(set...)
			var errs site.Errors
			if !errors.As(err, &errs) || len(errs) != 1 || !strings.Contains(err.Error(), "found it beside care.response") {
				t.Errorf("%s: %v", typed, err)
			}
		}
	}
}

func BenchmarkWith(b *testing.B) {
	s := openedFile(b, demo)
	a := axis(b, s, "care.response=4 h..168 h", 50)
	b.ReportAllocs()
	for i := 0; b.Loop(); i++ {
		if _, err := s.With(a.Set(a.Values[i%50])); err != nil {
			b.Fatal(err)
		}
	}
}
