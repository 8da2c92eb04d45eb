package spares

import (
	"math"
	"testing"
)

// The ends add up to the loss chance, and without events none is by them.
func TestEndsAddUp(t *testing.T) {
	t.Parallel()
	for _, c := range chains {
		sum := 0.0
		for end := range Ends {
			p := c.chain.LossByEnd(end, c.hours)
			if end == ByCommonCause && (p > 0) != (c.chain.ShockPerHour > 0) {
				t.Errorf("%s: %g by common cause", c.name, p)
			}
			sum += p
		}
		near(t, c.name, sum, c.chain.LossBy(c.hours), 1e-11)
	}
}

// A mirror with no spare, for lives that are short against the time between failures: a
// failure (rate 2λ) is followed by a wait of mean w and a rebuild of mean r, and the other
// drive fails with the rate λ in each: 2λT·λw and 2λT·λr. The events, each of rate σ, take
// both drives with q².
func TestEndsByHand(t *testing.T) {
	t.Parallel()
	const λ, w, r, hours = 1e-9, 30.0, 10.0, 1e6
	c := Chain{Drives: 2, Tolerance: 1, FailurePerHour: λ, Response: w, Rebuild: r}
	near(t, "waiting", c.LossByEnd(WhileWaiting, hours), 2*λ*hours*λ*w, 1e-3)
	near(t, "rebuilding", c.LossByEnd(WhileRebuilding, hours), 2*λ*hours*λ*r, 1e-3)
	c.ShockPerHour, c.ShockChance = 1e-9, 0.1
	near(t, "common cause", c.LossByEnd(ByCommonCause, hours), -math.Expm1(-1e-9*hours*0.01), 1e-3)
}
