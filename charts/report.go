package charts

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim"
	"arrayodds/sim/estimate"
)

// Outcome is one choice with what was found of it.
type Outcome struct {
	Choice array.Choice
	Sizing array.Sizing // NaN: not known
	Result sim.Result
}

// report is a comparison as its page draws it.
type report struct{ Comparison }

// Comparison is what a page is made of.
type Comparison struct {
	Site        array.Site
	Seed        uint64
	Accuracy    float64 // 95 % half-width of the loss chance that was asked for, relative; 0.05 is 5 %
	Plain       bool    // simulated life by life, without branching
	Outcomes    []Outcome
	Assumptions []site.Assumption
}

// Choices returns the choices in their order.
func (c Comparison) Choices() []array.Choice {
	var all []array.Choice
	for _, o := range c.Outcomes {
		all = append(all, o.Choice)
	}
	return all
}

// hasCameras says whether anything is asked of the choices but capacity.
func (r report) hasCameras() bool { return len(r.Site.Cameras) > 0 }

// hasPrices says whether cost can be spoken of: at least one choice has a price.
func (r report) hasPrices() bool {
	for _, o := range r.Outcomes {
		if !math.IsNaN(o.Sizing.Purchase) {
			return true
		}
	}
	return false
}

func (r report) years() float64 { return r.Site.ServiceLife / array.HoursPerYear }

// redundant says whether the layout ever had something to rebuild from.
func (o Outcome) redundant() bool { return o.Sizing.Shape.Rebuilds() }

// bought is the number of drives to buy, hot spares among them.
func (o Outcome) bought() int { return o.Choice.Drives + o.Choice.HotSpares }

// scaled is e times k, interval and all.
func scaled(e estimate.Estimate, k float64) estimate.Estimate {
	return estimate.Estimate{Value: e.Value * k, Low: e.Low * k, High: e.High * k, RelativeError: e.RelativeError}
}

// warningsOf are the result's, each in one line.
func warningsOf(o Outcome) []string {
	var lines []string
	for _, w := range o.Result.Warnings {
		lines = append(lines, oneLine(w))
	}
	return lines
}
