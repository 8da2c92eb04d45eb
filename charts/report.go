package charts

import (
	"math"

	"arrayodds/array"
	"arrayodds/sim"
)

// Assumption is one value of the site file that the results rest on.
type Assumption struct {
	Path    string // as in the site file: care.response
	Text    string // the value as a person would write it
	Default bool   // not given in the site file
}

// Outcome is one choice with what was found of it.
type Outcome struct {
	Choice array.Choice
	Sizing array.Sizing // NaN: not known
	Result sim.Result
}

// Report is what a page is made of.
type Report struct {
	Site        array.Site
	Seed        uint64
	Accuracy    float64 // 95 % half-width of the loss chance that was asked for, relative; 0.05 is 5 %
	Plain       bool    // simulated life by life, without branching
	Outcomes    []Outcome
	Assumptions []Assumption
}

// hasCameras says whether anything is asked of the choices but capacity.
func (r Report) hasCameras() bool { return len(r.Site.Cameras) > 0 }

// hasPrices says whether cost can be spoken of: at least one choice has a price.
func (r Report) hasPrices() bool {
	for _, o := range r.Outcomes {
		if !math.IsNaN(o.Sizing.Purchase) {
			return true
		}
	}
	return false
}

func (r Report) years() float64 { return r.Site.ServiceLife / array.HoursPerYear }

// redundant says whether the layout ever had something to rebuild from.
func (o Outcome) redundant() bool { return o.Sizing.Shape.Rebuilds() }

// bought is the number of drives to buy, hot spares among them.
func (o Outcome) bought() int { return o.Choice.Drives + o.Choice.HotSpares }

// scaled is e times k, interval and all.
func scaled(e sim.Estimate, k float64) sim.Estimate {
	return sim.Estimate{Value: e.Value * k, Low: e.Low * k, High: e.High * k, RelativeError: e.RelativeError}
}

// warnings are the result's, each in one line.
func (o Outcome) warnings() []string {
	var lines []string
	for _, w := range o.Result.Warnings {
		lines = append(lines, oneLine(w))
	}
	return lines
}
