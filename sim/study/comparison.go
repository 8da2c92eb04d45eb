package study

import (
	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim"
)

// Outcome is one choice with its size and the result of its simulation.
type Outcome struct {
	Choice array.Choice
	Sizing array.Sizing // NaN where a figure is not known
	Result sim.Result
	Doubt  *ChoiceDoubt // nil where it was not worked out
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
