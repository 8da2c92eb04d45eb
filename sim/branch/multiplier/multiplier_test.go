package multiplier

import (
	"math"
	"testing"

	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// What multiplies hazards for a whole life is drawn from a mixture. Its weights
// restore Gamma(a), whose moments are Γ(a + k) ÷ Γ(a), and never pass 1 ÷ 0.4.
func TestDraw(t *testing.T) {
	t.Parallel()
	for _, c := range []struct{ a, r float64 }{{0.5, 3}, {4.5, 2}, {2, 4}} {
		rnd := stream.New(1, uint64(10*c.a))
		var moments [5]simtest.Mean
		most := 0.0
		for range 200000 {
			x, w := Draw(rnd, c.a, c.r, 0, 0.6)
			most = max(most, w)
			for k := range moments {
				moments[k].Add(w * math.Pow(x, float64(k)))
			}
		}
		for k := range moments {
			moments[k].Is(t, "moment", math.Gamma(c.a+float64(k))/math.Gamma(c.a))
		}
		if most > 2.5 {
			t.Errorf("Gamma(%g), power %g: a weight of %g", c.a, c.r, most)
		}
	}
}
