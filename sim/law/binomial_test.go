package law

import (
	"math"
	"testing"

	"gonum.org/v1/gonum/mathext"
	"gonum.org/v1/gonum/stat/distuv"
)

// Against gonum: the chances by its binomial law, the tails by the regularised
// incomplete beta function, P(k or more of n) = I_q(k, n − k + 1) (NIST Digital
// Library of Mathematical Functions, 8.17.5).
func TestBinomial(t *testing.T) {
	t.Parallel()
	for _, n := range []int{1, 2, 8, 36, 100} {
		for _, q := range []float64{1e-9, 0.002, 0.3, 0.5, 0.97} {
			law, gonum := NewBinomial(n, q), distuv.Binomial{N: float64(n), P: q}
			sum := 0.0
			for k := range n + 1 {
				sum += law.Chance[k]
				if got, want := law.Chance[k], gonum.Prob(float64(k)); math.Abs(got-want) > 1e-11*want {
					t.Errorf("%d of %d at %g: %g, gonum %g", k, n, q, got, want)
				}
				if k == 0 {
					continue
				}
				if got, want := law.Above[k], mathext.RegIncBeta(float64(k), float64(n-k+1), q); math.Abs(got-want) > 1e-11*want {
					t.Errorf("%d or more of %d at %g: %g, gonum %g", k, n, q, got, want)
				}
			}
			if math.Abs(sum-1) > 1e-12 || law.Above[n+1] != 0 {
				t.Errorf("of %d at %g: all chances add up to %g", n, q, sum)
			}
		}
	}
	// One in 10^17 is below what 1 − q can hold: n·q, and q² n(n − 1)/2.
	tiny := NewBinomial(10, 1e-17)
	if math.Abs(tiny.Above[1]-1e-16) > 1e-28 || math.Abs(tiny.Above[2]-45e-34) > 1e-45 {
		t.Errorf("at 1e-17: %g and %g", tiny.Above[1], tiny.Above[2])
	}
	if all := NewBinomial(5, 1); all.Chance[5] != 1 || all.Chance[4] != 0 || all.Above[5] != 1 {
		t.Errorf("certain: %+v", all)
	}
}

// A uniform number belongs to the k at which the distribution passes it; within
// bounds to that at which the share of what lies within does.
func TestBinomialDraw(t *testing.T) {
	t.Parallel()
	const n, q = 8, 0.3
	law, gonum := NewBinomial(n, q), distuv.Binomial{N: n, P: q}
	for u := 0.0005; u < 1; u += 0.001 {
		k := float64(law.Draw(u))
		if !(u <= gonum.CDF(k)+1e-12) || k > 0 && !(u >= gonum.CDF(k-1)-1e-12) {
			t.Errorf("%g is drawn as %g, where the distribution goes from %g to %g", u, k, gonum.CDF(k-1), gonum.CDF(k))
		}
		for _, c := range [][2]int{{0, 2}, {3, 8}, {4, 4}} {
			low, high := c[0], c[1]
			below := 0.0
			if low > 0 {
				below = gonum.CDF(float64(low - 1))
			}
			k := law.DrawWithin(u, low, high)
			of := below + u*(gonum.CDF(float64(high))-below)
			if k < low || k > high || of > gonum.CDF(float64(k))+1e-12 || k > low && of < gonum.CDF(float64(k-1))-1e-12 {
				t.Errorf("%g from %d to %d is drawn as %d", u, low, high, k)
			}
		}
	}
}
