package study

import (
	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/unit"
	"arrayodds/sim"
	"arrayodds/sim/estimate"
)

// Outcome is one choice with its size and the result of its simulation.
type Outcome struct {
	Choice array.Choice
	Sizing array.Sizing // NaN where a figure is not known
	Result sim.Result
	Doubt  *ChoiceDoubt // nil where it was not worked out
	// Options are taken beside the drives, and count in the result; what they cost once
	// is in the purchase price of the sizing. Compare takes none.
	Options []array.Option
}

// Comparison is the result of [Compare].
type Comparison struct {
	Site        array.Site
	Seed        uint64
	Accuracy    float64 // 95 % half-width of the loss chance that was asked for, relative; 0.05 is 5 %
	Plain       bool    // simulated life by life, without branching
	Outcomes    []Outcome
	Doubt       *Doubt // nil where it was not worked out: in a plain run
	Assumptions []site.Assumption
}

// Choices returns the choices in the order of the outcomes.
func (c Comparison) Choices() []array.Choice {
	var all []array.Choice
	for _, o := range c.Outcomes {
		all = append(all, o.Choice)
	}
	return all
}

// Simulated reports whether there are figures of the choice: there are none of one
// too busy to be simulated.
func (o Outcome) Simulated() bool { return o.Result.LossChance.Known() }

// Redundant reports whether the layout has anything to rebuild a drive from.
func (o Outcome) Redundant() bool { return o.Sizing.Shape.Rebuilds() }

// Bought returns the number of drives to buy, hot spares among them.
func (o Outcome) Bought() int { return o.Choice.Drives + o.Choice.HotSpares }

// A LifeCost is what a choice costs over the service life of a site, in the site's
// currency. NaN is not known.
type LifeCost struct {
	Purchase float64           // drives, hot spares and, where its price is given, the recorder
	Replaced estimate.Estimate // drives bought for those that fail
	Energy   float64           // as [array.Site.EnergyCost] has it: 0 where energy has no price
	Options  float64           // what options cost each year
}

// CostOfLife returns what the choice costs over the service life of the site that it
// was simulated for. Work is not counted, as no site file gives its price.
func (o Outcome) CostOfLife(s array.Site) LifeCost {
	c := LifeCost{
		Purchase: o.Sizing.Purchase,
		Replaced: o.Result.DrivesReplaced.Times(o.Choice.Drive.Price),
		Energy:   s.EnergyCost(o.Sizing),
	}
	for _, option := range o.Options {
		c.Options += option.PerYear * s.ServiceLife / unit.HoursPerYear
	}
	return c
}

// Total returns the sum of the parts, all NaN where one of them is not known. Its
// interval is that of the drives replaced.
func (c LifeCost) Total() estimate.Estimate {
	return c.Replaced.Plus(c.Purchase + c.Energy + c.Options)
}
