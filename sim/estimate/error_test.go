package estimate

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/stat/distuv"
)

// Ends reach as far as Student's t has it, by gonum, and never below 0.
func TestFromError(t *testing.T) {
	for _, free := range []float64{5, 12, 63, 1000} {
		want := distuv.StudentsT{Sigma: 1, Nu: free}.Quantile(0.975)
		if got := Student95(free); math.Abs(got-want) > 2e-3*want {
			t.Errorf("%g degrees of freedom: %g, gonum %g", free, got, want)
		}
		e := FromError(10, 2, free)
		if e.Value != 10 || e.RelativeError != 0.2 || math.Abs(e.High-10-2*Student95(free)) > 1e-12 || math.Abs(e.Low-10+2*Student95(free)) > 1e-12 {
			t.Errorf("%g degrees of freedom: %+v", free, e)
		}
	}
	if e := FromError(1, 2, 100); e.Low != 0 || e.High < 4.9 {
		t.Errorf("a wide one: %+v", e)
	}
	if e := FromError(3, 0, 100); e != Exact(3) {
		t.Errorf("without an error: %+v", e)
	}
	if e := FromError(-1e-20, 1e-19, 100); e.Value != 0 || e.Low != 0 || !(e.High > 0) || e.RelativeError != 1 {
		t.Errorf("below 0 by chance: %+v", e)
	}
}
