package estimate

import (
	"math"
	"testing"
)

// scipy 1.10.1, scipy.stats.beta.ppf.
func TestProportionIsClopperPearson(t *testing.T) {
	for _, c := range []struct{ k, n, low, high float64 }{
		{0, 1000, 0, 0.00368208389687},
		{3, 1000, 0.00061909993165, 0.00874202323848},
		{500, 1000, 0.468549172972, 0.531450827028},
		{1000, 1000, 0.996317916103, 1},
	} {
		e := Proportion(c.k, c.n)
		if math.Abs(e.Low-c.low) > 1e-9 || math.Abs(e.High-c.high) > 1e-9 || e.Value != c.k/c.n {
			t.Errorf("%g of %g: %+v, want %g to %g", c.k, c.n, e, c.low, c.high)
		}
	}
}
