package array

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// 195 TB in 12 bays of at most 14 TB. By hand: RAID 6 of 12 holds 10 drives' worth, 140
// TB, which is 195 ÷ 140 too little: 30 days become 21.5; 19.5 TB a drive would do, 16
// bays, or 0.718 of the bit rate.
func TestShortfallsByHand(t *testing.T) {
	t.Parallel()
	s := Site{Cameras: []Cameras{one(1, 195e12*8/3600/720, 720)}}
	models := []Drive{{Label: "8 TB", Capacity: 8e12, Transfer: 2e8}, {Label: "14 TB", Capacity: 14e12, Transfer: 2e8}}
	layouts := []Layout{{Level: JBOD}, {Level: RAID10}, {Level: RAID6}, {Level: RAID60}, {Level: Erasure, Data: 8, Parity: 3}, {Level: Erasure, Data: 12, Parity: 3}}
	got := s.Shortfalls(models, layouts, Care{RebuildFloor: 1}, nil, 13, 1)
	want := []struct {
		layout         string
		drives, groups int
		usable         float64
		capacity       float64
		bays           int
	}{
		{"JBOD", 12, 1, 168e12, 195e12 / 12, 15},
		{"RAID 10", 12, 1, 84e12, 195e12 / 6, 29},
		{"RAID 6", 12, 1, 140e12, 195e12 / 10, 17},
		{"RAID 60", 12, 2, 112e12, 195e12 / 8, 19},
		{"8+3", 11, 1, 112e12, 195e12 / 8, 23},
		{"12+3", 0, 0, 0, math.NaN(), 31},
	}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i, w := range want {
		g := got[i]
		if g.Layout.String() != w.layout || g.Choice.Drives != w.drives || g.Sizing.Usable != w.usable || g.Bays != w.bays || !near(g.BitRate, w.usable/195e12) && w.usable > 0 {
			t.Errorf("%s: %+v", w.layout, g)
		}
		if !near(g.Capacity, w.capacity) && !math.IsNaN(w.capacity) || w.drives > 0 && (!near(g.Sizing.Retention, 720*w.usable/195e12) || g.Choice.Drive.Label != "14 TB") {
			t.Errorf("%s: %+v", w.layout, g)
		}
	}
	if got := s.Shortfalls(models, layouts[:1], Care{RebuildFloor: 1}, nil, 15, 1); got != nil {
		t.Errorf("14 drives hold it, and yet %+v", got)
	}
}

// What is said to be enough is, and a little less is not.
func TestShortfallsAreTheLeast(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(LayoutsToFit([]Choice{{Layout: Layout{Level: Erasure, Data: 4, Parity: 2}}})).Draw(t, "layout")
		bays, spares := rapid.IntRange(1, 40).Draw(t, "bays"), rapid.IntRange(0, 2).Draw(t, "spares")
		s := Site{Cameras: []Cameras{one(1, rapid.Float64Range(0.1, 60).Draw(t, "drives' worth")*1e13*8/3600/720, 720)}}
		designs := func(s Site, capacity float64, bays int) int {
			return len(s.Designs([]Drive{{Capacity: capacity, Transfer: 2e8}}, []Layout{l}, Care{RebuildFloor: 1}, nil, bays, spares))
		}
		short := s.Shortfalls([]Drive{{Capacity: 1e13, Transfer: 2e8}}, []Layout{l}, Care{RebuildFloor: 1}, nil, bays, spares)
		if (designs(s, 1e13, bays) > 0) != (short == nil) {
			t.Fatalf("%d designs, and %+v", designs(s, 1e13, bays), short)
		}
		if short == nil {
			return
		}
		g := short[0]
		if designs(s, 1e13, g.Bays) == 0 || designs(s, 1e13, g.Bays-1) > 0 {
			t.Errorf("%d bays are not the least", g.Bays)
		}
		if g.Choice.Drives == 0 {
			if designs(s, 1e15, bays) > 0 {
				t.Error("there are bays enough for larger drives")
			}
			return
		}
		if designs(s, g.Capacity*1.000001, bays) == 0 || designs(s, g.Capacity*0.999999, bays) > 0 {
			t.Errorf("drives of %v bytes are not the least", g.Capacity)
		}
		with := func(share float64) Site {
			c := s.Cameras[0]
			c.BitRate *= share
			return Site{Cameras: []Cameras{c}}
		}
		if designs(with(g.BitRate*0.999999), 1e13, bays) == 0 || designs(with(g.BitRate*1.000001), 1e13, bays) > 0 {
			t.Errorf("%v of the bit rate is not the most", g.BitRate)
		}
	})
}

// By hand, RAID 6 of 8 drives of 12 TB under 8 MB/s: 252.288 TB a year of footage over
// 6 drives' worth are 42.048 TB a drive; a scrub every 730 h reads 144 TB; 0.02 failures
// a year, each of which 6 drives are read for and one is written, are 0.02 × 7 × 12 =
// 1.68 TB a drive.
func TestWorkload(t *testing.T) {
	t.Parallel()
	c := choice()
	s := Site{Cameras: []Cameras{one(1, 64e6, 720)}}
	z, err := s.Size(c)
	if err != nil {
		t.Fatal(err)
	}
	w := s.Workload(c, z.Shape, 730, 0.02)
	if !near(w.Footage, 42.048e12) || !near(w.Scrubs, 144e12) || !near(w.Rebuilds, 1.68e12) || !near(w.Total(), 187.728e12) {
		t.Errorf("%+v", w)
	}
	// Both drives of a mirror take all of it, and a JBOD rebuilds nothing.
	if w := s.Workload(c, Shape{Sets: 1, GroupsPerSet: 1, DrivesInGroup: 2, Tolerance: 1, DataInGroup: 1}, 0, 0.02); !near(w.Footage, 252.288e12) || w.Scrubs != 0 || !near(w.Rebuilds, 0.48e12) {
		t.Errorf("%+v", w)
	}
	if w := s.Workload(c, Shape{Sets: 2, GroupsPerSet: 1, DrivesInGroup: 1, DataInGroup: 1}, 0, 0.02); !near(w.Total(), 126.144e12) {
		t.Errorf("%+v", w)
	}
}
