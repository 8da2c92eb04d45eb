package elementary

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// Against gonum v0.17.0.
func TestGammaInc(t *testing.T) {
	t.Parallel()
	for _, a := range []float64{0.05, 0.3, 0.5, 1, 1.7, 5, 30} {
		for _, x := range []float64{1e-8, 0.01, 0.5, 0.99, 1.5, 2.1, 4, 20, 80, 140} {
			p, q := GammaInc(a, x)
			wantP, wantQ := mathext.GammaIncReg(a, x), mathext.GammaIncRegComp(a, x)
			if math.Abs(p-wantP) > 3e-13*wantP || math.Abs(q-wantQ) > 3e-13*wantQ+1e-16 {
				t.Errorf("a %g, x %g: %.16g and %.16g, gonum %.16g and %.16g", a, x, p, q, wantP, wantQ)
			}
		}
	}
	if p, q := GammaInc(0.5, 0); p != 0 || q != 1 {
		t.Errorf("of nothing: %g, %g", p, q)
	}
	if p, q := GammaInc(0.5, math.Inf(1)); p != 1 || q != 0 {
		t.Errorf("of all: %g, %g", p, q)
	}
}

func TestNormalCDF(t *testing.T) {
	t.Parallel()
	for z := -12.0; z <= 12; z += 0.37 {
		if got, want := NormalCDF(z), distuv.UnitNormal.CDF(z); math.Abs(got-want) > 1e-13*want {
			t.Errorf("%g: %.16g, gonum %.16g", z, got, want)
		}
	}
}
