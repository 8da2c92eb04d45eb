package print

import (
	"math"
	"strings"
	"testing"

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
