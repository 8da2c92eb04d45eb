package array

import (
	"math"
	"slices"
	"testing"

	"pgregory.net/rapid"
)

// 195 TB are 14 drives' worth of 14 TB. By hand: with single parity 15 drives in one
// group, in two 2 × (7 + 1); with double parity 16 drives in one group, in two 18 and
// in three 21. Wider than 8 and 12 is not customary (common practice, no source).
func TestDesignsByHand(t *testing.T) {
	t.Parallel()
	s := Site{Cameras: []Cameras{one(1, 195e12*8/3600/720, 720)}}
	drive := Drive{Label: "14 TB", Capacity: 14e12, Transfer: 2e8, Price: 300}
	type design struct {
		drives, groups int
		customary      bool
	}
	for _, c := range []struct {
		level        Level
		bays, spares int
		want         []design
	}{
		{RAID6, 16, 0, []design{{16, 1, false}}},
		{RAID6, 16, 1, nil},
		{RAID6, 17, 1, []design{{16, 1, false}}},
		{RAID6, 24, 2, []design{{16, 1, false}, {18, 2, true}, {21, 3, true}}},
		{RAID5, 20, 0, []design{{15, 1, false}, {16, 2, true}, {18, 3, true}, {20, 4, true}, {20, 5, true}}},
		{RAID60, 18, 0, []design{{18, 2, true}}},
		{JBOD, 16, 2, []design{{14, 1, true}}},
		{RAID1, 28, 0, []design{{28, 14, true}}},
		{TripleParity, 17, 0, []design{{17, 1, false}}},
	} {
		var got []design
		for _, f := range s.Designs([]Drive{drive}, []Layout{{Level: c.level}}, Care{RebuildFloor: 1, RebuildShare: 1}, nil, c.bays, c.spares) {
			got = append(got, design{f.Choice.Drives, f.Choice.Groups, f.Customary})
			if !f.Found || !f.Fits || !f.Sizing.Meets || f.Choice.HotSpares != c.spares || f.Sizing.Purchase != 300*float64(f.Choice.Drives+c.spares) {
				t.Errorf("%+v", f)
			}
		}
		if !slices.Equal(got, c.want) {
			t.Errorf("%v in %d bays with %d spares: %v, want %v", c.level, c.bays, c.spares, got, c.want)
		}
	}
}

// Whatever holds the demand is among the designs, or more of one of them: all numbers
// of drives and groups are tried.
func TestDesignsLeaveNothingOut(t *testing.T) {
	t.Parallel()
	layouts := append(LayoutsToFit(nil), Layout{Level: RAID0}, Layout{Level: Erasure, Data: 6, Parity: 3})
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(layouts).Draw(t, "layout")
		bays := rapid.IntRange(1, 60).Draw(t, "bays")
		spares := rapid.IntRange(0, 2).Draw(t, "spares")
		worth := rapid.Float64Range(0.1, 50).Draw(t, "drives' worth")
		s := Site{Growth: rapid.SampledFrom([]float64{0, 0.2}).Draw(t, "growth"), Cameras: []Cameras{one(1, worth*1e13*8/3600/720, 720)}}
		all := s.Designs([]Drive{{Capacity: 1e13, Transfer: 2e8}}, []Layout{l}, Care{RebuildFloor: 1}, nil, bays, spares)
		width := func(c Choice) int { return c.Drives / c.Groups }
		for i, f := range all {
			if !f.Sizing.Meets || f.Sizing.BaysUsed > bays || f.Customary != (width(f.Choice) <= l.Width().Most) {
				t.Fatalf("%+v", f)
			}
			for j, other := range all {
				if i != j && width(other.Choice) <= width(f.Choice) && other.Choice.Groups <= f.Choice.Groups {
					t.Fatalf("%d drives in %d groups are more of %d in %d", f.Choice.Drives, f.Choice.Groups, other.Choice.Drives, other.Choice.Groups)
				}
			}
		}
		for n := 1; n <= bays-spares; n++ {
			for g := 1; g <= n; g++ {
				sh, err := l.Shape(n, g)
				if err != nil || n/g < l.Width().Least || l.Level == JBOD && g > 1 || l.Level == RAID1 && n/g > 2 || float64(sh.UsableDrives())*1e13 < s.Demand().Room {
					continue
				}
				if !slices.ContainsFunc(all, func(f Fitting) bool { return width(f.Choice) <= n/g && f.Choice.Groups <= g }) {
					t.Fatalf("%d drives in %d groups are left out", n, g)
				}
			}
		}
	})
}

// By hand, as above: wider groups follow where they take fewer drives, and are picked
// where nothing else fits.
func TestFitOffersWiderGroups(t *testing.T) {
	t.Parallel()
	s := Site{Cameras: []Cameras{one(1, 195e12*8/3600/720, 720)}}
	models := []Drive{{Label: "14 TB", Capacity: 14e12, Transfer: 2e8, Price: 300}}
	for _, c := range []struct {
		bays, spares    int
		widths          map[Level]int
		drives, fitting []int
		picked          int
	}{
		{16, 0, nil, []int{18, 16}, []int{16}, 16},
		{18, 0, nil, []int{18, 16}, []int{18, 16}, 18},
		{18, 1, nil, []int{18, 16}, []int{16}, 16},
		{16, 0, map[Level]int{RAID6: 16}, []int{16}, []int{16}, 16},
		{15, 0, nil, []int{18, 16}, nil, 0},
	} {
		s.Widths = c.widths
		var drives, fitting []int
		all := s.Fit(models, []Layout{{Level: RAID6}}, Care{RebuildFloor: 1}, nil, c.bays, c.spares)
		for i, f := range all {
			drives = append(drives, f.Choice.Drives)
			if f.Fits {
				fitting = append(fitting, f.Choice.Drives)
			}
			if f.Customary != (i == 0) || f.Choice.HotSpares != c.spares || f.Low != f.Choice.Drives || f.High != f.Low {
				t.Errorf("%+v", f)
			}
		}
		if !slices.Equal(drives, c.drives) || !slices.Equal(fitting, c.fitting) {
			t.Errorf("%d bays: %v, of which %v fit; want %v and %v", c.bays, drives, fitting, c.drives, c.fitting)
		}
		picked := 0
		for _, f := range Cheapest(all) {
			picked += f.Choice.Drives
		}
		if picked != c.picked {
			t.Errorf("%d bays: %d drives are picked, want %d", c.bays, picked, c.picked)
		}
	}
}

// By hand: 1 956 TB are 163 drives' worth of 12 TB. With double parity that takes 17
// groups of 12, which is 204 drives, or by fewer and wider groups 5 of 33 + 2, 4 of 41 +
// 2, 3 of 55 + 2, and 165 in one.
func TestFitTakesTheNarrowestThatFits(t *testing.T) {
	t.Parallel()
	s := Site{Cameras: []Cameras{one(1, 1956e12*8/3600/720, 720)}}
	models := []Drive{{Capacity: 12e12, Transfer: 2e8}}
	for bays, want := range map[int][2]int{175: {175, 5}, 174: {172, 4}, 171: {171, 3}, 204: {165, 1}, 150: {165, 1}} {
		f := s.Fit(models, []Layout{{Level: RAID6}}, Care{RebuildFloor: 1}, nil, bays, 0)
		if len(f) != 2 || f[0].Choice.Drives != 204 || f[1].Choice.Drives != want[0] || f[1].Choice.Groups != want[1] {
			t.Errorf("%d bays: %+v", bays, f)
		}
	}
}

// By hand: 5.184 TB and a quarter are 6.48 TB, which take a third drive of 3 TB, and
// are not met by two.
func TestGrowth(t *testing.T) {
	t.Parallel()
	s := Site{Growth: 0.25, Cameras: []Cameras{one(4, 4e6, 720)}}
	if d := s.Demand(); d.Needed != 5184e9 || !near(d.Room, 6480e9) {
		t.Fatalf("%+v", d)
	}
	drive := Drive{Capacity: 3e12, Transfer: 2e8, Price: math.NaN()}
	for drives, meets := range map[int]bool{2: false, 3: true} {
		z, err := s.Size(Choice{Drive: drive, Drives: drives, Groups: 1})
		if err != nil || z.Meets != meets || z.AtHigh.Meets != meets || !near(z.Retention, 720*float64(drives)*3e12/5184e9) {
			t.Errorf("%d drives: %+v %v", drives, z, err)
		}
	}
	if f := s.Fit([]Drive{drive}, []Layout{{Level: JBOD}}, Care{}, nil, 0, 0); f[0].Choice.Drives != 3 {
		t.Errorf("%+v", f)
	}
	if got := s.Changes()[1].Needed; !near(got, 1.1*6480e9) {
		t.Errorf("10 %% more bit rate takes %v bytes", got)
	}
}
