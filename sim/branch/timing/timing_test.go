package timing

import (
	"fmt"
	"math"
	"testing"

	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// An exponential on condition that it is below h: (1 − exp(−x)) ÷ (1 − exp(−h)).
func TestTruncated(t *testing.T) {
	t.Parallel()
	rnd := stream.New(2, 2)
	for _, h := range []float64{1e-9, 0.005, 1, 30} {
		var x []float64
		for range 20000 {
			x = append(x, Truncated(rnd, h))
		}
		simtest.Follows(t, "truncated exponential", x, func(x float64) float64 { return math.Expm1(-x) / math.Expm1(-h) })
	}
}

// Fork times are drawn from a mixture whose weights restore the even law, whose moments are
// 1 ÷ (k + 1): whatever must still follow, in windows that are all of the time left or a part
// of it, where failures are rare and where they are not.
func TestFork(t *testing.T) {
	t.Parallel()
	for _, m := range []int{0, 1, 2, 5} {
		for _, left := range []float64{10, 30, 500} {
			for _, alone := range []bool{false, true} {
				for _, total := range []float64{1e-9, 0.02} {
					rnd := stream.New(3, uint64(m))
					var moments [4]simtest.Mean
					for range 40000 {
						share, w := Fork(rnd, m, 10, left, total, alone, rnd.Float64())
						if !(share >= 0 && share <= 1) {
							t.Fatalf("a share of %g", share)
						}
						for k := range moments {
							moments[k].Add(w * math.Pow(share, float64(k)))
						}
					}
					for k := range moments {
						what := fmt.Sprintf("%d failures within %g h, hazard %g, alone %t, moment %d", m, left, total, alone, k)
						moments[k].Is(t, what, 1/float64(k+1))
					}
				}
			}
		}
	}
}

// By hand: the hazard x² reaches 9 after 3 hours, by Newton's method from any guess, and
// where what to try next is of no use.
func TestReached(t *testing.T) {
	t.Parallel()
	for _, guess := range []float64{0.01, 3, 9.9} {
		newton := func(x float64) (over, next float64) { return x * x, x - (x*x-9)/(2*x) }
		useless := func(x float64) (over, next float64) { return x * x, math.NaN() }
		for _, hazard := range []func(x float64) (over, next float64){newton, useless} {
			if x := Reached(10, 9, guess, hazard); math.Abs(x-3) > 1e-7 {
				t.Errorf("from %g h on it is reached after %g h", guess, x)
			}
		}
	}
}
