package compare

import (
	"math"

	"arrayodds/sim/answer"
	"arrayodds/sim/study"
)

// report is a comparison as its page draws it: the choices safest first, each with the
// number that it has in the file.
type report struct {
	study.Comparison
	answer answer.Answer
	places []int // of the outcomes, in the file's order
}

func newReport(c study.Comparison) report {
	r := report{Comparison: c, answer: answer.Of(c)}
	r.Outcomes = nil
	for _, place := range r.answer.Order {
		r.Outcomes = append(r.Outcomes, c.Outcomes[place])
		r.places = append(r.places, place)
	}
	return r
}

// said returns what is said of the choice in a row.
func (r report) said(row int) answer.Choice { return r.answer.Choices[r.places[row]] }

// doubtful reports whether the doubt about the inputs was worked out.
func (r report) doubtful() bool { return r.Doubt != nil && r.Doubt.Settings > 0 }

// hasCameras reports whether anything is asked of the choices but capacity.
func (r report) hasCameras() bool { return len(r.Site.Cameras) > 0 }

// hasPrices reports whether cost can be spoken of: at least one choice has a price.
func (r report) hasPrices() bool {
	for _, o := range r.Outcomes {
		if !math.IsNaN(o.Sizing.Purchase) {
			return true
		}
	}
	return false
}
