package model

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/law"

	"gonum.org/v1/gonum/integrate/quad"
	"gonum.org/v1/gonum/stat/distuv"
)

// recorded is twelve drives of 12 TB in two groups of RAID 6, with everything that a
// site may have, and ten cameras of 4 Mbit/s.
func recorded() (array.Site, array.Choice) {
	site := array.Site{
		ServiceLife: 5 * unit.HoursPerYear,
		Cameras:     []array.Cameras{{Count: 10, BitRate: 4e6, HoursPerDay: 24, Activity: 1, Retention: 720}},
		Hazards:     array.Hazards{DegradedMultiplier: 1.5, CommonPerYear: 0.1, CommonEachDrive: 0.05},
	}
	return site, array.Choice{
		Label: "twelve",
		Drive: array.Drive{
			Capacity: 12e12, Transfer: 200e6, Life: array.ConstantRate{AFR: 0.02}, HazardMultiplier: 1.5,
			LatentMean: 9259, ReadErrorBits: 1e15, BatchVariance: 0.4,
		},
		Layout: array.Layout{Level: array.RAID6}, Drives: 12, Groups: 2, HotSpares: 1,
		Care: array.Care{
			Notice: array.Fixed{Hours: 2}, Response: array.Exponential{Mean: 24}, Restock: array.Fixed{Hours: 336},
			Scrub: array.Fixed{Hours: 168}, RebuildShare: 0.5, RebuildFloor: 20e6, Stop: true, Parallel: true,
		},
	}
}

func systemOf(t *testing.T, site array.Site, c array.Choice) *System {
	t.Helper()
	s, err := New(site, c)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func exactly(t *testing.T, what string, got, want float64) {
	t.Helper()
	if !(math.Abs(got-want) <= 1e-12*math.Abs(want)) {
		t.Errorf("%s: %.15g, by hand %.15g", what, got, want)
	}
}

// SI arithmetic. A rebuild has half of the mean transfer, which is 3/4 of 200 MB/s:
// 12e12 B ÷ 75e6 B/s is 160 000 s. Recording takes 10 × 4e6 ÷ 8 B/s from eight usable
// drives, which leaves more than half. A rebuild without redundancy reads 4 of 6 drives:
// 8 × 4 × 12e12 bits at one error in 1e15.
func TestSystemOfAChoice(t *testing.T) {
	t.Parallel()
	site, c := recorded()
	s := systemOf(t, site, c)
	if s.Sets != 2 || s.GroupsPerSet != 1 || s.Groups() != 2 || s.Drives != 6 || s.Tolerance != 2 || s.Spares != 1 || !s.Stop || !s.Repair.Parallel {
		t.Errorf("%+v", s)
	}
	exactly(t, "service life", s.Horizon, 43800)
	exactly(t, "failures an hour", s.Life.(law.Constant).PerHour, 0.02*1.5/8760)
	exactly(t, "rebuild", s.Repair.Rebuild, 160000.0/3600)
	exactly(t, "notice", s.Repair.Notice.Mean(), 2)
	exactly(t, "response", s.Repair.Response.Mean(), 24)
	exactly(t, "restock", s.Repair.Restock.Mean(), 336)
	exactly(t, "read errors", s.ReadErrors, 0.384)
	exactly(t, "defects an hour", s.LatentRate, 1.0/9259)
	exactly(t, "frailty", s.Frailty, 0.4)
	exactly(t, "common-cause events an hour", s.ShockRate, 0.1/8760)
	exactly(t, "chance of each drive", s.ShockChance, 0.05)
	for k, want := range []float64{1, 1.5, 2.25} {
		exactly(t, "degraded multiplier", s.Degraded[k], want)
	}
}

// What a group is, and what is lost together, follows from the layout. JBOD and RAID 0
// rebuild nothing: no spare, no defect and no read error counts there.
func TestSystemOfALayout(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		layout                          array.Layout
		drives, groups                  int
		sets, perSet, inGroup, tolerate int
	}{
		{array.Layout{Level: array.JBOD}, 3, 1, 3, 1, 1, 0},
		{array.Layout{Level: array.RAID0}, 4, 2, 2, 1, 2, 0},
		{array.Layout{Level: array.RAID1}, 3, 1, 1, 1, 3, 2},
		{array.Layout{Level: array.RAID10}, 8, 2, 2, 2, 2, 1},
		{array.Layout{Level: array.RAID60}, 12, 2, 1, 2, 6, 2},
		{array.Layout{Level: array.Erasure, Data: 8, Parity: 4}, 12, 1, 1, 1, 12, 4},
	} {
		site, choice := recorded()
		choice.Layout, choice.Drives, choice.Groups = c.layout, c.drives, c.groups
		s := systemOf(t, site, choice)
		if s.Sets != c.sets || s.GroupsPerSet != c.perSet || s.Drives != c.inGroup || s.Tolerance != c.tolerate {
			t.Errorf("%v: %d sets of %d groups of %d drives that tolerate %d", c.layout, s.Sets, s.GroupsPerSet, s.Drives, s.Tolerance)
		}
		if rebuilds := c.tolerate > 0; (s.Spares == 1) != rebuilds || (s.LatentRate > 0) != rebuilds || (s.ReadErrors > 0) != rebuilds {
			t.Errorf("%v: %d spares, %g defects an hour, %g read errors", c.layout, s.Spares, s.LatentRate, s.ReadErrors)
		}
	}
	site, choice := recorded()
	choice.Drives = 5
	if _, err := New(site, choice); err == nil || !strings.Contains(err.Error(), `"twelve"`) {
		t.Errorf("two groups of five drives: %v", err)
	}
}

// A record of 21 failures in 612 000 drive-days has the rate Gamma(21.5) ÷ 14 688 000 h:
// Jeffreys' prior. Common cause that strikes nothing, or never comes, is none.
func TestSystemOfUncertainInputs(t *testing.T) {
	t.Parallel()
	site, c := recorded()
	c.Drive.Life = array.FieldRecord{Failures: 21, DriveDays: 612000}
	site.Hazards.CommonEachDrive = 0
	s := systemOf(t, site, c)
	exactly(t, "shape", s.Uncertain, 21.5)
	exactly(t, "failures an hour", s.Life.(law.Constant).PerHour, 1.5/14688000)
	if s.ShockRate != 0 || s.Fitted != nil {
		t.Errorf("%+v", s)
	}
	c.Drive.Life = array.FittedWeibull{Shape: 1.2, Scale: 4e5, ShapeError: 0.1, ScaleError: 0.2, Correlation: -0.3}
	if s := systemOf(t, site, c); s.Uncertain != 0 || s.Fitted == nil || s.Fitted.Centre.Shape != 1.2 || s.Fitted.Multiplier != 1.5 {
		t.Errorf("%+v, %+v", s, s.Fitted)
	}
}

// Defects that a scrub leaves are rate × ∫ of the survival of a dwell, which is
// integrated here with gonum; long after the last one was cleared they are rate × mean.
func TestDefectsByIntegration(t *testing.T) {
	t.Parallel()
	site, c := recorded()
	for _, scrub := range []struct {
		time     array.Time
		survival func(x float64) float64
	}{
		{array.WeibullTime{Min: 6, Scale: 168, Shape: 3}, func(x float64) float64 { return distuv.Weibull{K: 3, Lambda: 168}.Survival(x - 6) }},
		{array.Exponential{Mean: 200}, distuv.Exponential{Rate: 1.0 / 200}.Survival},
		{array.Lognormal{Median: 100, P90: 300}, distuv.LogNormal{Mu: math.Log(100), Sigma: math.Log(3) / distuv.UnitNormal.Quantile(0.9)}.Survival},
	} {
		c.Care.Scrub = scrub.time
		s := systemOf(t, site, c)
		for _, since := range []float64{3, 50, 400, 8000, 40000} {
			want := 0.0
			for from := 0.0; from < since; from += 100 {
				want += quad.Fixed(scrub.survival, from, math.Min(since, from+100), 50, nil, 0) / 9259
			}
			if got := s.Defects(since); math.Abs(got-want) > 1e-5*want {
				t.Errorf("%+v: %g defects after %g h, by integration %g", scrub.time, got, since, want)
			}
		}
	}
}

// The most that a set can lose is its share of a full ring: two sets of 100 h at ten
// cameras lose 500 camera-hours, each of which would have been kept for another 50 h.
func TestFullRing(t *testing.T) {
	t.Parallel()
	site, c := recorded()
	site.Cameras[0].Retention = 100
	s := systemOf(t, site, c)
	destroyed, missing := s.Footage.Full()
	exactly(t, "destroyed", destroyed, 500)
	exactly(t, "missing", missing, 500*50)
	if rings := s.Footage.Rings(); len(rings) != 1 || rings[0] != (Ring{Rate: 10, Held: 100}) {
		t.Errorf("%+v", rings)
	}
}
