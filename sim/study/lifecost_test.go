package study

import (
	"math"
	"testing"

	"arrayodds/array"
	"arrayodds/sim"
	"arrayodds/sim/estimate"
)

// By hand: 4 720 to buy, 0.6 drives at 290 in place of those that fail, and 153 W over
// five years of 8 760 h at 0.30 a kWh.
func TestCostOfLife(t *testing.T) {
	t.Parallel()
	s := array.Site{ServiceLife: 5 * 8760, EnergyPrice: 0.30}
	o := Outcome{
		Choice: array.Choice{Drive: array.Drive{Price: 290}},
		Sizing: array.Sizing{Purchase: 4720, Watts: 153},
		Result: sim.Result{DrivesReplaced: estimate.Estimate{Value: 0.6, Low: 0.55, High: 0.65, RelativeError: 0.04}},
	}
	near := func(what string, got, want float64) {
		t.Helper()
		if math.Abs(got-want) > 1e-9*want {
			t.Errorf("%s is %v, want %v", what, got, want)
		}
	}
	c := o.CostOfLife(s)
	near("the purchase", c.Purchase, 4720)
	near("what is replaced", c.Replaced.Value, 174)
	near("the energy", c.Energy, 2010.42)
	total := c.Total()
	near("the total", total.Value, 4720+174+2010.42)
	near("its low end", total.Low, 4720+159.5+2010.42)
	near("its high end", total.High, 4720+188.5+2010.42)
	near("its error", total.RelativeError*total.Value, 0.04*174)

	s.EnergyPrice = math.NaN()
	near("the total without a price of energy", o.CostOfLife(s).Total().Value, 4894)
	s.EnergyPrice = 0.30
	for what, unknown := range map[string]func(*Outcome){
		"price of the drive": func(o *Outcome) { o.Sizing.Purchase, o.Choice.Drive.Price = math.NaN(), math.NaN() },
		"power":              func(o *Outcome) { o.Sizing.Watts = math.NaN() },
		"simulation":         func(o *Outcome) { o.Result.DrivesReplaced = estimate.None() },
	} {
		part := o
		unknown(&part)
		if got := part.CostOfLife(s).Total(); got.Known() || !math.IsNaN(got.Low) || !math.IsNaN(got.High) {
			t.Errorf("without the %s it is %+v", what, got)
		}
	}
}
