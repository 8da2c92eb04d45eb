package array

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// By hand: 4 streams of 4 Mbit/s for 30 days of 86 400 s are 5 184 GB (SI
// arithmetic), which takes 3 drives' worth of 2 TB.
func TestFewestByHand(t *testing.T) {
	t.Parallel()
	s := Site{Cameras: []Cameras{one(4, 4e6, 720)}}
	needed := s.Demand().Needed
	if needed != 5184e9 {
		t.Fatalf("needs %v bytes", needed)
	}
	for _, c := range []struct {
		layout         Layout
		capacity       float64
		drives, groups int
	}{
		{Layout{Level: JBOD}, 2e12, 3, 1},
		{Layout{Level: RAID0}, 2e12, 3, 1},
		{Layout{Level: RAID1}, 2e12, 6, 3},
		{Layout{Level: RAID10}, 2e12, 6, 1},
		{Layout{Level: RAID5}, 2e12, 4, 1},
		{Layout{Level: RAID6}, 2e12, 5, 1},
		{Layout{Level: TripleParity}, 2e12, 6, 1},
		{Layout{Level: RAID50}, 2e12, 6, 2}, // 2 groups of 3 hold 4 drives' worth
		{Layout{Level: RAID60}, 2e12, 8, 2},
		{Layout{Level: Erasure, Data: 2, Parity: 1}, 2e12, 6, 2},
		// One drive holds it all: the least that each layout has.
		{Layout{Level: JBOD}, 6e12, 1, 1},
		{Layout{Level: RAID1}, 6e12, 2, 1},
		{Layout{Level: RAID10}, 6e12, 4, 1},
		{Layout{Level: RAID5}, 6e12, 3, 1},
		{Layout{Level: RAID6}, 6e12, 4, 1},
		{Layout{Level: TripleParity}, 6e12, 5, 1},
		{Layout{Level: RAID60}, 6e12, 8, 2},
		// Exactly as much as there is.
		{Layout{Level: RAID5}, 2592e9, 3, 1},
		{Layout{Level: RAID5}, 2592e9 - 1, 4, 1},
		// Wider than a group is made: 8 data drives take two groups of RAID 5
		// (2 × (4 + 1)), 11 take two of RAID 6 (2 × (6 + 2)).
		{Layout{Level: RAID5}, 648e9, 10, 2},
		{Layout{Level: RAID6}, 5184e9 / 11, 16, 2},
		{Layout{Level: RAID6}, 5184e9 / 10, 12, 1},
		// 24 data drives in groups of at most 7 + 1 need four: 4 × (6 + 1).
		{Layout{Level: RAID50}, 216e9, 28, 4},
	} {
		got, ok := Choice{Drive: Drive{Capacity: c.capacity}, Layout: c.layout}.Fewest(needed, c.layout.Width())
		if !ok || got.Drives != c.drives || got.Groups != c.groups {
			t.Errorf("%v of %v bytes: %d drives in %d groups, want %d in %d", c.layout, c.capacity, got.Drives, got.Groups, c.drives, c.groups)
		}
	}
	if _, ok := (Choice{Drive: Drive{Capacity: 5e9}, Layout: Layout{Level: JBOD}}).Fewest(needed, Width{1, MaxDrives}); ok {
		t.Error("1 037 drives were found")
	}
	unknown := Layout{Level: Erasure + 1}
	if got, ok := (Choice{Drive: Drive{Capacity: 2e12}, Layout: unknown}).Fewest(needed, unknown.Width()); ok {
		t.Errorf("a level that is not known was laid over %d drives", got.Drives)
	}
}

// What is found holds the demand, and no fewer drives do, however they are
// grouped: all numbers of drives and groups are tried.
func TestFewestIsTheLeast(t *testing.T) {
	t.Parallel()
	layouts := append(LayoutsToFit(nil), Layout{Level: RAID0}, Layout{Level: Erasure, Data: 6, Parity: 3}, Layout{Level: Erasure, Data: 1, Parity: 2})
	rapid.Check(t, func(t *rapid.T) {
		l := rapid.SampledFrom(layouts).Draw(t, "layout")
		capacity := rapid.Float64Range(1e12, 30e12).Draw(t, "capacity")
		worth := rapid.OneOf(rapid.Float64Range(0.01, 90), rapid.Map(rapid.IntRange(1, 90), func(i int) float64 { return float64(i) })).Draw(t, "drives' worth")
		s := Site{Cameras: []Cameras{one(1, worth*capacity*8/3600/720, 720)}}
		needed := s.Demand().Needed
		c, ok := Choice{Drive: Drive{Capacity: capacity, Transfer: 2e8}, Layout: l, Care: Care{RebuildFloor: 1}}.Fewest(needed, l.Width())
		if !ok {
			t.Fatal("nothing was found")
		}
		if z, err := s.Size(c); err != nil || !z.Meets {
			t.Fatalf("%d drives in %d groups: %+v %v", c.Drives, c.Groups, z, err)
		}
		w := l.Width()
		for n := 1; n < c.Drives; n++ {
			for g := 1; g <= n; g++ {
				if n%g != 0 || n/g < w.Least || n/g > w.Most || l.Level == JBOD && g > 1 {
					continue
				}
				if sh, err := l.Shape(n, g); err == nil && float64(sh.UsableDrives())*capacity >= needed {
					t.Fatalf("%d drives in %d groups hold it too, fewer than %d in %d", n, g, c.Drives, c.Groups)
				}
			}
		}
	})
}

func TestChanges(t *testing.T) {
	t.Parallel()
	got := two.Changes() // 450 GB over 100 h and 1 350 GB over 300 h; 9 GB/h in all
	want := []Change{{"1 more day of all", 1800e9 + 24*9e9}, {"10 % more bit rate", 1980e9},
		{"1 more camera of ", 1845e9}, {"1 more camera of ", 1867.5e9}}
	if len(got) != len(want) {
		t.Fatalf("%+v", got)
	}
	for i := range want {
		if got[i].Label != want[i].Label || !near(got[i].Needed, want[i].Needed) {
			t.Errorf("%+v, want %+v", got[i], want[i])
		}
	}
}

func TestFitAndCheapest(t *testing.T) {
	t.Parallel()
	s := Site{Cameras: []Cameras{one(4, 4e6, 720)}} // 5.184 TB
	models := []Drive{
		{Label: "2", Capacity: 2e12, Price: 60, Power: 5, Transfer: 2e8},
		{Label: "6", Capacity: 6e12, Price: 170, Power: 7, Transfer: 2e8},
		{Label: "8", Capacity: 8e12, Price: math.NaN(), Power: math.NaN(), Transfer: 2e8},
	}
	all := s.Fit(models, []Layout{{Level: JBOD}, {Level: RAID5}}, Care{RebuildFloor: 1, RebuildShare: 1}, &Recorder{Price: 500, IdlePower: 40, Link: 1e8}, 3, 0)
	if len(all) != 6 {
		t.Fatalf("%d fittings", len(all))
	}
	if f := all[1]; f.Choice.Drives != 4 || f.Fits || !f.Found || f.Sizing.Purchase != 740 || f.Sizing.Watts != 60 || f.Low != 4 || f.High != 4 {
		t.Errorf("%+v", f)
	}
	best := Cheapest(all)
	if len(best) != 2 || best[0].Drive.Label != "6" || best[0].Sizing.Purchase != 670 || best[1].Drive.Label != "6" || best[1].Choice.Drives != 3 {
		t.Errorf("%+v", best)
	}
	if got := s.FreeLink(&Recorder{Link: 1e8}); !near(got, 0.84) { // 16 of 100 Mbit/s
		t.Errorf("%v of the link is free", got)
	}
	if !math.IsNaN(s.FreeLink(nil)) || !math.IsNaN(s.FreeLink(&Recorder{})) {
		t.Error("a link that is not given has room")
	}
}

func TestReachedRetention(t *testing.T) {
	t.Parallel()
	if got := two.PossibleRetentionByGroup(3600e9); !near(got[0], 200) || !near(got[1], 600) {
		t.Errorf("twice the room reaches %v h", got)
	}
	if got := two.PossibleRetentionByGroup(1350e9); !near(got[0], 100) || !near(got[1], 200) {
		t.Errorf("short room reaches %v h", got)
	}
}

// 1 W is 3.412 142 BTU/h, as tables of conversion give it (from memory).
func TestBTU(t *testing.T) {
	t.Parallel()
	if got := BTUPerHour(1000); math.Abs(got-3412.142) > 0.001 {
		t.Errorf("1 kW is %v BTU/h", got)
	}
}

// By hand: 1920 × 1080 pixels 25 times a second are 51.84 million pixels a
// second, so 0.08 bits of H.264 each are 4.1472 Mbit/s.
func TestEstimate(t *testing.T) {
	t.Parallel()
	p := Picture{Pixels: 1920 * 1080, FramesPerSecond: 25, Codec: H264}
	low, likely, high := p.BitRate()
	if !near(low, 2.0736e6) || !near(likely, 4.1472e6) || !near(high, 8.2944e6) {
		t.Errorf("%v, %v to %v bit/s", likely, low, high)
	}
	c := one(10, likely, 720)
	c.Picture = p
	s := Site{Cameras: []Cameras{c, one(1, 1e6, 720)}}
	if !s.Estimated() || (Site{Cameras: s.Cameras[1:]}).Estimated() {
		t.Error("what is estimated and what is not")
	}
	day := 86400. / 8
	if d := s.Lowest().Demand().Needed; !near(d, 30*day*(10*low+1e6)) {
		t.Errorf("needs %v bytes at least", d)
	}
	if d := s.Highest().Demand().Needed; !near(d, 30*day*(10*high+1e6)) {
		t.Errorf("needs %v bytes at most", d)
	}
	// 13.8 TB likely, 7.0 to 27.2 TB.
	for _, want := range []struct {
		drives            int
		low, likely, high bool
	}{{1, false, false, false}, {2, true, false, false}, {4, true, true, false}, {7, true, true, true}} {
		z, err := s.Size(Choice{Drive: Drive{Capacity: 4e12, Transfer: 2e8}, Drives: want.drives, Groups: 1})
		if err != nil {
			t.Fatal(err)
		}
		if z.AtLow.Meets != want.low || z.Meets != want.likely || z.AtHigh.Meets != want.high || !(z.AtLow.Retention > z.Retention && z.Retention > z.AtHigh.Retention) {
			t.Errorf("%d drives: %+v", want.drives, z)
		}
	}
}

func TestCodecsHaveFigures(t *testing.T) {
	t.Parallel()
	for _, c := range Codecs() {
		low, likely, high := c.BitsPerPixel()
		if !(0 < low && low < likely && likely < high) {
			t.Errorf("%v: %v, %v, %v", c, low, likely, high)
		}
		if got, err := ParseCodec(c.String()); err != nil || got != c {
			t.Errorf("%v is read as %v, %v", c, got, err)
		}
	}
	for name, want := range map[string]Codec{"HEVC": H265, "h.264/AVC": H264, "H 265": H265, "Motion JPEG": MJPEG} {
		if got, err := ParseCodec(name); err != nil || got != want {
			t.Errorf("%q is read as %v, %v", name, got, err)
		}
	}
	if _, err := ParseCodec("H.263"); err == nil {
		t.Error("H.263 has figures")
	}
}
