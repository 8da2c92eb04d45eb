package answer

import (
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// By hand from the figures of three: 1.3e-3 ÷ 2e-5 is 65.
func TestBetween(t *testing.T) {
	t.Parallel()
	c := three()
	d := Between(c, 1, 2)
	if d.Safer != 2 || math.Abs(d.Times-65) > 1e-9 || d.Share != 1 || d.Cost != 100 {
		t.Errorf("%+v", d)
	}
	contains(t, d.Says,
		"double is the safer: of 10 000 sites like this fewer than 1 lose footage in 5 years with it, and about 13 with single: 65 times fewer (1 in 50 000 and 1 in 770, over all that is uncertain). It is the safer one in every setting that was tried.",
		"single loses footage more often, as a group of it survives 1 failure and one of the other 2.",
		"double costs 100 EUR more than single over 5 years (+14 %).")
	if back := Between(c, 2, 1); back.Safer != 2 || back.Share != 1 || back.Cost != -100 {
		t.Errorf("the other way about %+v", back)
	} else {
		contains(t, back.Says, "single costs 100 EUR less than double over 5 years (-12 %).")
	}
	if d := Between(c, 2, 3); d.Share != 0.98 {
		t.Errorf("%+v", d)
	}
	c.Site.Goal = &array.Goal{LossChance: 1e-3}
	contains(t, Between(c, 1, 2).Says, "single: Misses the goal: 1 in 770", "double: Meets the goal; it is met in 75 % of the settings.")
}

func TestBetweenAlike(t *testing.T) {
	t.Parallel()
	c := three()
	c.Outcomes[3] = c.Outcomes[2]
	c.Outcomes[3].Choice.Label = "twin"
	c.Doubt.Safer[2][3] = 0.5
	d := Between(c, 2, 3)
	if d.Safer != -1 || d.Times != 1 || d.Cost != 0 {
		t.Errorf("%+v", d)
	}
	contains(t, d.Says, "are about as safe", "It is the safer one in 50 % of the settings", "twin costs the same as double.")

	none := func(o *study.Outcome) { o.Doubt, o.Result.LossChance = nil, estimate.Unseen(1000, 1) }
	none(&c.Outcomes[2])
	if d := Between(c, 1, 2); d.Safer != 2 || !math.IsInf(d.Times, 1) {
		t.Errorf("%+v", d)
	} else {
		contains(t, d.Says, "none that was seen")
	}
	none(&c.Outcomes[3])
	if d := Between(c, 2, 3); d.Safer != -1 {
		t.Errorf("%+v", d)
	} else {
		contains(t, d.Says, "With neither was footage lost")
	}
	c.Outcomes[0].Doubt, c.Outcomes[0].Result = nil, sim.TooBusy(&engine.BusyError{})
	c.Outcomes[0].Sizing.Purchase = math.NaN()
	d = Between(c, 0, 1)
	if d.Safer != -1 || !math.IsNaN(d.Cost) {
		t.Errorf("%+v", d)
	}
	contains(t, d.Says, "bare is too busy to be simulated", "single takes 1 drive more than bare.")
}
