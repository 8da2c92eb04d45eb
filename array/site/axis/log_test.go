package axis

import (
	"math"
	"reflect"
	"strings"
	"testing"

	"arrayodds/array"
)

const logSite = `
service_life = "5 y"

[[drives]]
label = "a"
capacity = "12 TB"
life = LIFE
transfer = "200 MB/s"

[[log]]
drive = "a"
failures = 6
drives = 100
since = 2024-01-01
until = 2025-12-31

[[choices]]
label = "c"
drive = "a"
layout = "RAID 6"
drives = 8
`

// What the log made of a rate is in place of the file's range of it and of the default
// one, and a value that is set for the rate is known.
func TestLogInputs(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ life, path, set string }{
		{`{ afr = "2 %" }`, "drives.a.life.afr", "drives.a.life.afr=3 %"},
		{`{ afr = { low = "1 %", likely = "2 %", high = "5 %" } }`, "drives.a.life.afr", "drives.a.life.afr=3 %"},
		{`{ mtbf = "1000000 h" }`, "drives.a.life.afr", "drives.a.life.mtbf=500000 h"},
		{`{ failures = 3, drive_days = 60000 }`, "drives.a.life.afr", "drives.a.life.afr=3 %"},
		{`{ afr_by_year = ["2 %", "3 %"] }`, "drives.a.hazard_multiplier", "drives.a.life.afr_by_year.1=3 %"},
		{`{ shape = 1.3, scale = { low = "200000 h", likely = "400000 h", high = "700000 h" } }`, "drives.a.hazard_multiplier", "drives.a.life.scale=300000 h"},
		{`{ shape = 1.3, scale = "400000 h", shape_error = "10 %", scale_error = "20 %" }`, "drives.a.life.scale", "drives.a.life.scale=300000 h"},
	} {
		s := opened(t, strings.ReplaceAll(logSite, "LIFE", c.life))
		model := s.File().Site.Drives[0]
		if model.Log == nil {
			t.Fatalf("%s: no log", c.life)
		}
		found := 0
		for _, in := range s.Inputs() {
			for _, key := range []string{"life.afr", "life.mtbf", "life.scale", "life.afr_by_year", "hazard_multiplier"} {
				if in.Axis.Path != "drives.a."+key {
					continue
				}
				found++
				if in.Axis.Path != c.path || in.Given || !in.Doubtful || !strings.Contains(in.Range, "log") {
					t.Errorf("%s: %s, %+v", c.life, in.Axis.Path, in)
				}
				f, err := s.With(in.Axis.Set(in.At(0.5)))
				if err != nil {
					t.Fatal(err)
				}
				got := f.Site.Drives[0]
				if got.Log != nil || got.Life.About().Recorded {
					t.Errorf("%s: drawn, and %+v", c.life, got)
				}
				// The median of what the log leaves, to some per cent of its mean.
				a, b := got.Life.Expected(0, 20000)*got.HazardMultiplier, model.Life.Expected(0, 20000)*model.HazardMultiplier
				if math.Abs(a/b-1) > 0.06 {
					t.Errorf("%s: %.4g are expected at the median, %.4g in the mean", c.life, a, b)
				}
			}
		}
		if found != 1 {
			t.Errorf("%s: %d inputs are the rate's", c.life, found)
		}
		a, err := s.Axis(c.set, 2)
		if err != nil {
			t.Fatal(err)
		}
		f, err := s.With(a.Set(a.Values[0]))
		if err != nil {
			t.Fatal(err)
		}
		fit := strings.Contains(c.life, "error")
		if got := f.Site.Drives[0]; got.Log != nil || got.Life.About().Recorded != fit || !math.IsNaN(a.Own) {
			t.Errorf("%s: %s is %+v, its own %v", c.life, c.set, got, a.Own)
		}
	}
}

// A range of what multiplies a record goes into what the log makes of it, and is no input
// beside it.
func TestLogOfARecordWithARange(t *testing.T) {
	t.Parallel()
	s := opened(t, strings.ReplaceAll(logSite, "LIFE", `{ failures = 3, drive_days = 60000 }`+"\nhazard_multiplier = { low = 0.5, likely = 1, high = 4 }"))
	narrow := opened(t, strings.ReplaceAll(logSite, "LIFE", `{ failures = 3, drive_days = 60000 }`))
	if a, b := s.File().Site.Drives[0].Log.Before, narrow.File().Site.Drives[0].Log.Before; !(a.Shape < 0.9*b.Shape) {
		t.Errorf("before the log %+v, without the range %+v", a, b)
	}
	for _, in := range s.Inputs() {
		if in.Axis.Path == "drives.a.hazard_multiplier" {
			t.Errorf("%+v", in)
		}
	}
}

// Whatever else is set, what the log made of the law stays; multiples of a life multiply
// what it made of it.
func TestLogStays(t *testing.T) {
	t.Parallel()
	s := opened(t, strings.ReplaceAll(logSite, "LIFE", `{ afr = "2 %" }`))
	want := s.File().Site.Drives[0]
	for typed, multiplier := range map[string]float64{"care.response=4 h": 1, "drives.a.life=x2": 2, "drives.a.hazard_multiplier=2": 2, "drives.a.batch_variance=0.5": 1} {
		a, err := s.Axis(typed, 2)
		if err != nil {
			t.Fatal(err)
		}
		f, err := s.With(a.Set(a.Values[0]))
		if err != nil {
			t.Fatal(err)
		}
		got := f.Site.Drives[0]
		if !reflect.DeepEqual(got.Life, want.Life) || !reflect.DeepEqual(got.Log, want.Log) || got.HazardMultiplier != multiplier {
			t.Errorf("%s: %+v, want %+v", typed, got, want)
		}
		if _, ok := f.Site.Choices[0].Drive.Life.(array.UpdatedLife); !ok {
			t.Errorf("%s: the choice has %+v", typed, f.Site.Choices[0].Drive.Life)
		}
	}
}

// Of a fit with errors the log updates both parameters, and they are drawn as they are then:
// one alone beside the middle of the other, both together with their correlation, none of
// them certain before.
func TestLogOfAFit(t *testing.T) {
	t.Parallel()
	s := opened(t, strings.ReplaceAll(logSite, "LIFE", `{ shape = 1.3, scale = "400000 h", shape_error = "10 %", scale_error = "20 %", correlation = -0.4 }`))
	fit := s.File().Site.Drives[0].Life.(array.FittedWeibull)
	if !(fit.Shape < 1.25 && fit.Scale < 390_000 && fit.ShapeError < 0.095) {
		t.Fatalf("6 failures where 1.7 are expected leave %+v", fit)
	}
	var both []Input
	for _, in := range s.Inputs() {
		switch in.Axis.Path {
		case "drives.a.life.shape", "drives.a.life.scale":
			both = append(both, in)
		case "drives.a.hazard_multiplier":
			t.Errorf("%+v", in)
		}
	}
	if len(both) != 2 {
		t.Fatalf("%d inputs", len(both))
	}
	life := func(set ...Setting) array.WeibullLife {
		t.Helper()
		f, err := s.With(set...)
		if err != nil {
			t.Fatal(err)
		}
		w, ok := f.Site.Drives[0].Life.(array.WeibullLife)
		if !ok || f.Site.Drives[0].Log != nil {
			t.Errorf("drawn, and %+v", f.Site.Drives[0].Life)
		}
		return w
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got/want-1) > 1e-5 {
			t.Errorf("%s is %v, want %v", what, got, want)
		}
	}
	for i, in := range both {
		for way, v := range map[float64]Value{-1: in.Low, 0: in.Likely, 1: in.High} {
			got := life(in.Axis.Set(v))
			want := [2]float64{fit.Shape, fit.Scale}
			want[i] *= math.Exp(way * 1.96 * []float64{fit.ShapeError, fit.ScaleError}[i])
			near(in.Axis.Path+": the shape", got.Shape, want[0])
			near(in.Axis.Path+": the scale", got.Scale, want[1])
		}
	}
	// At the normal's quantiles u = 1 and v = 0 the scale goes with the shape, by hand.
	got := life(Draw(both, []float64{0.8413447460685429, 0.5})...)
	near("the shape", got.Shape, fit.Shape*math.Exp(fit.ShapeError))
	near("the scale", got.Scale, fit.Scale*math.Exp(fit.ScaleError*fit.Correlation))
	// In the other order too.
	set := Draw(both, []float64{0.3, 0.6})
	if a, b := life(set[0], set[1]), life(set[1], set[0]); a != b {
		t.Errorf("%+v and %+v", a, b)
	}
}
