package array

import (
	"math"
	"testing"
)

// By hand: 2 % in the first year, 1 % from there on; half a year of the first and one and
// a half of the others are 0.01 + 0.015.
func TestExpectedByYear(t *testing.T) {
	l := RateByYear{AFR: []float64{0.02, 0.01}}
	if got := l.Expected(4380, 4380+2*8760); math.Abs(got-0.025) > 1e-15 {
		t.Errorf("%v", got)
	}
}
