package model

import (
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/array/unit"
)

// twoGroups keeps 30 and 10 days, on drives that hold less than the 30.
func twoGroups(t *testing.T, drives int) (Footage, array.Site) {
	t.Helper()
	site := array.Site{
		ServiceLife: 3000,
		Cameras: []array.Cameras{
			{Count: 6, BitRate: 4e6, HoursPerDay: 24, Activity: 1, Retention: 720},
			{Count: 5, BitRate: 2e6, HoursPerDay: 12, Activity: 0.5, Retention: 240},
		},
	}
	c := array.Choice{
		Drive: array.Drive{Capacity: 2e12}, Layout: array.Layout{Level: array.JBOD}, Drives: drives, Groups: 1,
		Recorder: &array.Recorder{SwapDown: 2, Supply: &array.Part{PerYear: 3, Restore: 10}},
	}
	z, err := site.Size(c)
	if err != nil {
		t.Fatal(err)
	}
	return NewFootage(site, z, c, site.ServiceLife), site
}

// byTheQuarterHour follows the footage of every quarter of an hour by itself:
// what of it is missing, and for how long of the time that it is due. gone is
// when a quarter's footage is destroyed and which share of it, recorded whether
// it is there at all.
func byTheQuarterHour(f *Footage, site array.Site, gone func(at float64) (when, share float64), recorded func(at float64) bool) (destroyed, missing float64) {
	const dt = 0.25
	for i, c := range site.Cameras {
		held := f.groups[i].held
		for at := dt / 2; at < f.horizon; at += dt {
			amount := float64(c.Count) * c.Recorded() * dt
			until := math.Min(at+held, f.horizon) // beyond that it is overwritten, or not asked for
			if !recorded(at) {
				missing += amount * (until - at)
				continue
			}
			if when, share := gone(at); share > 0 && at < when && when < until {
				destroyed += amount * share
				missing += amount * share * (until - when)
			}
		}
	}
	return destroyed, missing
}

func near(t *testing.T, what string, got, want float64) {
	t.Helper()
	if math.Abs(got-want) > 2e-3*want+1e-9 {
		t.Errorf("%s: %g, by the quarter hour %g", what, got, want)
	}
}

func TestLossByTheQuarterHour(t *testing.T) {
	for _, drives := range []int{3, 12} { // too few, and enough
		f, site := twoGroups(t, drives)
		always := func(float64) bool { return true }
		for _, c := range []struct{ now, since float64 }{{50, 0}, {500, 0}, {2000, 0}, {2000, 1900}, {2900, 500}, {2990, 2000}} {
			var s Sharing
			s.Reset(4)
			d, m := f.Loss(c.now, c.since, &s)
			wantD, wantM := byTheQuarterHour(&f, site, func(at float64) (float64, float64) {
				if at < c.since {
					return 0, 0
				}
				return c.now, 0.25
			}, always)
			near(t, "destroyed", d, wantD)
			near(t, "missing", m, wantM)
		}

		// Others were down in between, and so this set had more of the footage.
		var s Sharing
		s.Reset(4)
		s.Change(&f, 1400, 3)
		s.Change(&f, 1450, 2)
		s.Change(&f, 1700, 3)
		s.Change(&f, 1800, 4)
		d, m := f.Loss(1900, 1000, &s)
		wantD, wantM := byTheQuarterHour(&f, site, func(at float64) (float64, float64) {
			switch {
			case at < 1000:
				return 0, 0
			case at < 1400 || at >= 1800:
				return 1900, 1.0 / 4
			case at < 1450 || at >= 1700:
				return 1900, 1.0 / 3
			}
			return 1900, 1.0 / 2
		}, always)
		near(t, "destroyed of a changing share", d, wantD)
		near(t, "missing of a changing share", m, wantM)
	}
}

func TestPauseAndDueByTheQuarterHour(t *testing.T) {
	f, site := twoGroups(t, 12)
	never := func(float64) (float64, float64) { return 0, 0 }
	for _, c := range []struct{ from, length float64 }{{0, 5}, {100, 30}, {2500, 300}, {2995, 100}} {
		_, want := byTheQuarterHour(&f, site, never, func(at float64) bool { return at < c.from || at >= c.from+c.length })
		near(t, "pause", f.Pause(c.from, c.length), want)
	}
	_, due := byTheQuarterHour(&f, site, never, func(float64) bool { return false })
	near(t, "due", f.Due, due)
	if f.Short != 0 {
		t.Errorf("short of %g with room to spare", f.Short)
	}
	near(t, "gap", f.Gap, due*30/unit.HoursPerYear)
	near(t, "per swap", f.PerSwap, due*2/site.ServiceLife)

	small, _ := twoGroups(t, 3)
	_, held := byTheQuarterHour(&small, site, never, func(float64) bool { return false })
	near(t, "short", small.Short, due-held)
}

// A loss of a full ring in mid-life counts half the retention of all footage.
func TestFullRingCountsHalfTheRetention(t *testing.T) {
	f, site := twoGroups(t, 12)
	var s Sharing
	s.Reset(1)
	_, missing := f.Loss(2000, 0, &s)
	want := 0.0
	for _, c := range site.Cameras {
		want += float64(c.Count) * c.Recorded() * c.Retention * c.Retention / 2
	}
	if math.Abs(missing-want) > 1e-9*want {
		t.Errorf("missing %g, want %g", missing, want)
	}
}

func TestStripe(t *testing.T) {
	f, site := twoGroups(t, 12)
	// 512 KiB of one camera, for half its retention on average, weighted by the
	// bytes that the groups keep.
	var total, hours, wait float64
	for _, c := range site.Cameras {
		kept := c.WriteRate() * 3600 * c.Retention
		seconds := 512 * 1024 * 8 / c.BitRate
		total += kept
		hours += kept * seconds / 3600
		wait += kept * seconds / 3600 * c.Retention / 2
	}
	d, m := f.Stripe(2000)
	if math.Abs(d-hours/total) > 1e-12*d || math.Abs(m-wait/total) > 1e-12*m {
		t.Errorf("a stripe destroys %g and costs %g, want %g and %g", d, m, hours/total, wait/total)
	}
	if d, m := f.Stripe(0); d != 0 || m != 0 {
		t.Error("nothing is stored at hour 0")
	}
}

func TestSharingForgetsWhatIsOverwritten(t *testing.T) {
	f, _ := twoGroups(t, 12)
	var s Sharing
	s.Reset(2)
	for i := range 1000 {
		s.Change(&f, float64(i*10), 1+i%2)
	}
	if len(s.changes) > 80 { // 720 h by tens, and the state before
		t.Errorf("%d changes are kept", len(s.changes))
	}
}
