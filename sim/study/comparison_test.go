package study

import (
	"context"
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/site/axis"
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

// A dearer kWh makes the whole of it dearer by its energy, and changes nothing else:
// five drives of 7 W take 1 533 kWh in five years. The drives that fail are a Poisson
// process, of 0.02 a year each but for the hours in which one is missing.
func TestEnergyPriceVaries(t *testing.T) {
	t.Parallel()
	a := asked(t, strings.Replace(chained, "price = 100", "price = 100\npower = \"7 W\"", 1), 0)
	got, err := Vary(context.Background(), Variation{Request: a, Axes: []*axis.Axis{axisOf(t, a, "energy_price=0.1,0.3", 2)}, Against: -1})
	if err != nil {
		t.Fatal(err)
	}
	p := got.Curves[0].Points
	if p[0].Loss != p[1].Loss || p[0].Purchase != 500 || p[1].Purchase != 500 {
		t.Errorf("the price of energy changes more: %+v", p)
	}
	if d := p[1].CostOfLife.Value - p[0].CostOfLife.Value; math.Abs(d-306.6) > 1e-9 {
		t.Errorf("dearer by %v, want 306.6", d)
	}
	within(t, "the cost of the service life", p[0].CostOfLife, 500+153.3+100*5*5*0.02*(1-0.02*48/8760))
}
