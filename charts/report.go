package charts

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/sim/study"
)

// report is a comparison as its page draws it.
type report struct{ study.Comparison }

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

// warningsOf are the result's, each in one line.
func warningsOf(o study.Outcome) []string {
	var lines []string
	for _, w := range o.Result.Warnings {
		lines = append(lines, label.OneLine(w))
	}
	return lines
}
