package print

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/study"
)

func TestCompare(t *testing.T) {
	s, outcomes := sample()
	var b strings.Builder
	if err := Compare(&b, study.Comparison{Site: s, Accuracy: 0.02, Outcomes: outcomes}); err != nil {
		t.Fatal(err)
	}
	golden(t, "compare.txt", b.String())
}

func TestCompareWithoutCamerasAndPrices(t *testing.T) {
	s, outcomes := sample()
	s.Cameras = nil
	for i := range outcomes {
		outcomes[i].Sizing.Meets, outcomes[i].Sizing.Purchase = true, math.NaN()
	}
	var b strings.Builder
	if err := Compare(&b, study.Comparison{Site: s, Accuracy: 0.05, Outcomes: outcomes}); err != nil {
		t.Fatal(err)
	}
	golden(t, "compare-capacity.txt", b.String())
}

// A choice that holds what is due without the room to grow falls short of that alone.
func TestNoRoomToGrow(t *testing.T) {
	s := array.Site{Growth: 0.2, Cameras: []array.Cameras{{Label: "Lock", Count: 4, BitRate: 4e6, HoursPerDay: 24, Activity: 1, Retention: 720}}}
	c := array.Choice{Label: "mine", Drive: array.Drive{Capacity: 6e12, Transfer: 2e8}, Drives: 1, Groups: 1, Care: array.Care{RebuildFloor: 1}}
	z, err := s.Size(c) // 6 of 6.22 TB, of which 5.184 are due
	if err != nil || z.Meets {
		t.Fatal(z.Meets, err)
	}
	got := strings.Join(shortfalls(s, []study.Outcome{{Choice: c, Sizing: z}}), "")
	if got != "mine falls short: it holds what is due, and has no room to grow as asked for.\n" {
		t.Errorf("%q", got)
	}
	if got := title(s); !strings.Contains(got, "need 5.2 TB (and 20 % room to grow: 6.2 TB)") {
		t.Errorf("%q", got)
	}
}
