package array

import (
	"math"
	"testing"

	"pgregory.net/rapid"
)

// one is a camera group that records all the time.
func one(count int, bitRate, retention float64) Cameras {
	return Cameras{Count: count, BitRate: bitRate, HoursPerDay: 24, Activity: 1, Retention: retention}
}

// SI arithmetic: 4 streams of 4 Mbit/s for 30 days of 86 400 s are 5 184 GB, and
// 1 Mbit/s is 10.8 GB a day.
func TestDemandOfPublishedArithmetic(t *testing.T) {
	t.Parallel()
	d := Site{Cameras: []Cameras{one(4, 4e6, 720)}}.Demand()
	if d.Needed != 5184e9 || d.WriteRate != 2e6 || d.PeakRate != 2e6 || d.Longest != 720 {
		t.Errorf("%+v", d)
	}
	if d := (Site{Cameras: []Cameras{one(1, 1e6, 24)}}).Demand(); d.Needed != 10.8e9 {
		t.Errorf("1 Mbit/s is %v bytes a day", d.Needed)
	}
}

// two is 10 cameras that write 4.5 GB/h for 100 h, and 20 that record half of
// the day and write as much for 300 h: 450 GB and 1 350 GB.
var two = Site{Cameras: []Cameras{
	one(10, 1e6, 100),
	{Count: 20, BitRate: 1e6, HoursPerDay: 16, Activity: 0.75, Retention: 300},
}}

func TestDemandOfGroups(t *testing.T) {
	t.Parallel()
	d := two.Demand()
	want := Demand{WriteRate: 2.5e6, PeakRate: 3.75e6, Needed: 1800e9, Room: 1800e9, Longest: 300}
	if d != want {
		t.Errorf("%+v, want %+v", d, want)
	}
	if got := two.Cameras[1].Recorded(); got != 0.5 {
		t.Errorf("records %v of the time", got)
	}
}

// By hand: up to 100 h both groups fill 9 GB/h, beyond it one fills 4.5 GB/h.
func TestHeldRetention(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ usable, first, second, reached float64 }{
		{0, 0, 0, 0},
		{450e9, 50, 50, 50},
		{900e9, 100, 100, 100},
		{1350e9, 100, 200, 200},
		{1800e9, 100, 300, 300},
		{3600e9, 100, 300, 600},
	} {
		held := two.RetentionByGroup(c.usable)
		if !near(held[0], c.first) || !near(held[1], c.second) {
			t.Errorf("%v bytes hold %v h, want %v and %v", c.usable, held, c.first, c.second)
		}
		if got := two.PossibleRetention(c.usable); !near(got, c.reached) {
			t.Errorf("%v bytes reach %v h, want %v", c.usable, got, c.reached)
		}
	}
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) }

// Where room is short, what is held fills it; where it is not, all that is due
// is held. More room never holds less.
func TestHeldRetentionFillsTheRoom(t *testing.T) {
	t.Parallel()
	rapid.Check(t, func(t *rapid.T) {
		var s Site
		for range rapid.IntRange(1, 6).Draw(t, "groups") {
			s.Cameras = append(s.Cameras, Cameras{
				Count:       rapid.IntRange(1, 100).Draw(t, "count"),
				BitRate:     rapid.Float64Range(1e3, 1e8).Draw(t, "bit rate"),
				HoursPerDay: rapid.Float64Range(0.1, 24).Draw(t, "hours"),
				Activity:    rapid.Float64Range(0.01, 1).Draw(t, "activity"),
				Retention:   rapid.Float64Range(1, 9000).Draw(t, "retention"),
			})
		}
		needed := s.Demand().Needed
		usable := rapid.Float64Range(0, 2).Draw(t, "room") * needed
		filled := 0.
		for i, held := range s.RetentionByGroup(usable) {
			c := s.Cameras[i]
			if held > c.Retention {
				t.Fatalf("group %d holds %v h of %v", i, held, c.Retention)
			}
			filled += held * 3600 * c.WriteRate()
		}
		if want := math.Min(usable, needed); math.Abs(filled-want) > 1e-9*needed {
			t.Fatalf("%v bytes are filled with %v of %v", usable, filled, needed)
		}
		if a, b := s.PossibleRetention(usable), s.PossibleRetention(usable*1.1); b < a {
			t.Fatalf("more room reaches %v h instead of %v", b, a)
		}
	})
}
