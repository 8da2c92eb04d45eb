package law

import (
	"math"
	"testing"
)

// Against the library's functions, across the place where the series begin.
func TestSmallHazards(t *testing.T) {
	for h := 1e-18; h < 50; h *= 1.07 {
		if got, want := Happens(h), -math.Expm1(-h); math.Abs(got-want) > 2e-14*want {
			t.Errorf("Happens(%g) = %.17g, want %.17g", h, got, want)
		}
		if h < 1 {
			if got, want := HazardOf(h), -math.Log1p(-h); math.Abs(got-want) > 2e-14*want {
				t.Errorf("HazardOf(%g) = %.17g, want %.17g", h, got, want)
			}
		}
	}
	if Happens(0) != 0 || HazardOf(0) != 0 {
		t.Error("nothing from nothing")
	}
}
