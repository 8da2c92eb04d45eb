package array

import (
	"math"
	"math/rand/v2"
	"testing"

	"arrayodds/array/unit"
)

// choice is 8 drives of 12 TB in RAID 6, at 200 MB/s on the outer track.
func choice() Choice {
	return Choice{
		Drive:  Drive{Capacity: 12e12, Transfer: 200e6, Price: 290, Power: 7},
		Layout: Layout{Level: RAID6}, Drives: 8, Groups: 1, HotSpares: 1,
		Care: Care{RebuildShare: 0.5, RebuildFloor: 20e6},
	}
}

// By hand, each case limited by another term of
// max(floor, min(min(mean, limit) × share, mean − W ÷ usable drives)), where the
// mean is 3/4 of 200 MB/s, 150 MB/s (common practice, no source).
func TestRebuildHours(t *testing.T) {
	t.Parallel()
	recording := func(mb float64) []Cameras { return []Cameras{one(1, 8e6*mb, 24)} }
	for name, c := range map[string]struct {
		change  func(*Choice)
		cameras []Cameras
		rate    float64
	}{
		"share":              {func(*Choice) {}, nil, 75e6},
		"whole":              {func(c *Choice) { c.Care.RebuildShare = 1 }, nil, 150e6},
		"controller":         {func(c *Choice) { c.Care.ControllerLimit = 100e6 }, nil, 50e6},
		"slack controller":   {func(c *Choice) { c.Care.ControllerLimit = 900e6 }, nil, 75e6},
		"beside recording":   {func(*Choice) {}, recording(600), 50e6},
		"little recording":   {func(*Choice) {}, recording(60), 75e6},
		"floor":              {func(c *Choice) { c.Care.RebuildShare = 0.1 }, nil, 20e6},
		"floor at full load": {func(*Choice) {}, recording(6000), 20e6},
	} {
		ch := choice()
		c.change(&ch)
		s := Site{Cameras: c.cameras}
		z, err := s.Size(ch)
		if err != nil {
			t.Fatal(err)
		}
		if want := 12e12 / c.rate / 3600; !near(z.RebuildRun, want) {
			t.Errorf("%s: %v h, want %v", name, z.RebuildRun, want)
		}
	}
}

func TestSize(t *testing.T) {
	t.Parallel()
	c := choice()
	s := Site{Cameras: []Cameras{one(40, 6e6, 720)}} // 77.76 TB
	z, err := s.Size(c)
	if err != nil {
		t.Fatal(err)
	}
	if z.Usable != 72e12 || z.Meets || !near(z.Retention, 720*72/77.76) || len(z.Held) != 1 {
		t.Errorf("%+v", z)
	}
	if z.Purchase != 9*290 || z.Watts != 63 || z.BaysUsed != 9 {
		t.Errorf("%+v", z)
	}
	c.Recorder = &Recorder{Price: 2400, IdlePower: 90}
	if z, _ := s.Size(c); z.Purchase != 9*290+2400 || z.Watts != 153 {
		t.Errorf("with a recorder: %+v", z)
	}
	c.Recorder = &Recorder{Price: math.NaN(), IdlePower: math.NaN()}
	if z, _ := s.Size(c); z.Purchase != 9*290 || z.Watts != 63 {
		t.Errorf("with a recorder of which nothing is known: %+v", z)
	}
	c.Drive.Price = math.NaN()
	if z, _ := s.Size(c); !math.IsNaN(z.Purchase) {
		t.Errorf("costs %v without a price", z.Purchase)
	}
	c.Layout = Layout{Level: JBOD}
	if z, _ := (Site{}).Size(c); z.RebuildRun != 0 || !z.Meets || !math.IsNaN(z.Retention) || z.Held != nil {
		t.Errorf("JBOD without cameras: %+v", z)
	}
	c.Groups = 3
	if _, err := s.Size(c); err == nil {
		t.Error("8 drives in 3 groups were sized")
	}
}

// years of plain simulation against the closed forms of the gaps: the mean of
// the years must lie within 4 standard errors.
func compare(t *testing.T, name string, closed float64, years int, year func() float64) {
	t.Helper()
	sum, squares := 0., 0.
	for range years {
		y := year()
		sum += y
		squares += y * y
	}
	n := float64(years)
	mean := sum / n
	se := math.Sqrt((squares/n - mean*mean) / n)
	if math.Abs(mean-closed) > 4*se || se > 0.02*closed {
		t.Errorf("%s: %v h a year, simulated %v ± %v", name, closed, mean, se)
	}
}

func TestMainsGapAgainstSimulation(t *testing.T) {
	t.Parallel()
	rng := rand.New(rand.NewPCG(1, 2))
	r := &Recorder{Mains: &Mains{PerYear: 20, Mean: 1.3, UPSBridges: 0.5}}
	compare(t, "mains", r.GapHoursPerYear(0), 20_000, func() float64 {
		gap := 0.
		for at := rng.ExpFloat64(); at < 20; at += rng.ExpFloat64() {
			gap += math.Max(0, 1.3*rng.ExpFloat64()-0.5)
		}
		return gap
	})
}

// outage is a unit that fails at random, with fixed repairs: when it is down.
type outage struct {
	rng        *rand.Rand
	up, repair float64
	from, to   float64
}

func (o *outage) next() {
	o.from = o.to + o.up*o.rng.ExpFloat64()
	o.to = o.from + o.repair
}

func TestUnitGapAgainstSimulation(t *testing.T) {
	t.Parallel()
	const perYear, repair = 12, 100
	up := unit.HoursPerYear/perYear - repair // so that it is 12 failures in a calendar year
	single := &Recorder{Supply: &Part{PerYear: perYear, Restore: repair}}
	if got := single.GapHoursPerYear(0); got != perYear*repair {
		t.Errorf("one unit: %v h a year", got)
	}
	double := &Recorder{SystemDisk: &Part{PerYear: perYear, Restore: repair, Redundant: true}}
	rng := rand.New(rand.NewPCG(3, 4))
	a, b := &outage{rng: rng, up: float64(up), repair: repair}, &outage{rng: rng, up: float64(up), repair: repair}
	a.next()
	b.next()
	end := 0.
	compare(t, "two units", double.GapHoursPerYear(0), 20_000, func() float64 {
		both := 0.
		for end += unit.HoursPerYear; math.Min(a.to, b.to) < end; {
			both += math.Max(0, math.Min(a.to, b.to)-math.Max(a.from, b.from))
			if a.to < b.to {
				a.next()
			} else {
				b.next()
			}
		}
		return both
	})
}

func TestGapAddsUp(t *testing.T) {
	t.Parallel()
	var none *Recorder
	if none.GapHoursPerYear(3) != 0 {
		t.Error("a gap without a recorder")
	}
	r := &Recorder{SwapDown: 0.5}
	if got := r.GapHoursPerYear(3); got != 1.5 {
		t.Errorf("three swaps of half an hour: %v h", got)
	}
	r.Supply = &Part{PerYear: 0.05, Restore: 48}
	r.SystemDisk = &Part{PerYear: 0.01, Restore: 24}
	r.Mains = &Mains{PerYear: 2, Mean: 1.3}
	if got := r.GapHoursPerYear(3); !near(got, 1.5+2.4+0.24+2.6) {
		t.Errorf("all together: %v h", got)
	}
	r.Supply = &Part{PerYear: 1000, Restore: 100}
	if got := r.GapHoursPerYear(0); got != unit.HoursPerYear {
		t.Errorf("%v h in a year", got)
	}
}

// What makes a gap adds up to it, also where that is cut to the year.
func TestGapsAddUp(t *testing.T) {
	t.Parallel()
	var none *Recorder
	if a, b, c := none.Gaps(); a != 0 || b != 0 || c != 0 {
		t.Error("gaps without a recorder")
	}
	r := &Recorder{
		SwapDown: 0.5,
		Supply:   &Part{PerYear: 0.05, Restore: 48}, SystemDisk: &Part{PerYear: 0.01, Restore: 24}, Mains: &Mains{PerYear: 2, Mean: 1.3},
	}
	if a, b, c := r.Gaps(); !near(a, 2.4) || !near(b, 0.24) || !near(c, 2.6) {
		t.Errorf("%v h by the supply, %v h by the system disk, %v h by the mains", a, b, c)
	}
	r.Supply = &Part{PerYear: 1000, Restore: 100}
	a, b, c := r.Gaps()
	if !near(a+b+c, unit.HoursPerYear) || !near(a/b, 1e5/0.24) || !near(c/b, 2.6/0.24) {
		t.Errorf("%v h, %v h and %v h of a year", a, b, c)
	}
}

// By hand: 4 of 12 cameras are not among the 8 that come with the recorder, 180 at 45
// each.
func TestLicences(t *testing.T) {
	t.Parallel()
	s := Site{Cameras: []Cameras{one(7, 4e6, 720), one(5, 4e6, 720)}}
	c := choice()
	c.Recorder = &Recorder{Price: math.NaN(), IdlePower: math.NaN(), Licences: &Licences{Included: 8, Each: 45}}
	if z, err := s.Size(c); err != nil || z.Purchase != 9*290+180 {
		t.Errorf("%v %v", z.Purchase, err)
	}
	if got := c.Recorder.Licences.Cost(8); got != 0 {
		t.Errorf("8 cameras cost %v", got)
	}
	c.Drive.Price = math.NaN()
	if z, _ := s.Size(c); !math.IsNaN(z.Purchase) {
		t.Errorf("licences cost %v without a price of the drives", z.Purchase)
	}
}

// TestEnergyCost: 153 W over five years of 8 760 h are 6 701.4 kWh, at 0.30 a kWh
// 2 010.42.
func TestEnergyCost(t *testing.T) {
	t.Parallel()
	s := Site{ServiceLife: 5 * 8760, EnergyPrice: 0.30}
	z := Sizing{Watts: 153}
	if got := s.EnergyCost(z); !near(got, 2010.42) || !s.EnergyPriced() {
		t.Errorf("%v", got)
	}
	if got := s.EnergyCost(Sizing{Watts: math.NaN()}); !math.IsNaN(got) {
		t.Errorf("%v of a power that is not known", got)
	}
	s.EnergyPrice = math.NaN()
	for _, watts := range []float64{153, math.NaN()} {
		if got := s.EnergyCost(Sizing{Watts: watts}); got != 0 || s.EnergyPriced() {
			t.Errorf("%v without a price", got)
		}
	}
}
