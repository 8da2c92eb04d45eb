package model

// Control names a quantity of a life of which the mean is known to be 0, whatever the
// laws. What a figure has in common with it is known to be chance, and is taken out of
// the figure ([Fit]).
type Control int

// The controls.
const (
	Arrivals     Control = iota // failures of drives in whole groups of a life's main line, originals and a few younger ones, less the hazard that they passed through
	LateArrivals                // the same, each times the share of the life's hazard that is gone
	Outages                     // of lengths drawn tilted: weight − 1
	Forks                       // of forks whose time is drawn tilted: weight − 1
	Multipliers                 // of what multiplies the hazards of a life: weight − 1
	Weights                     // that branches bring and roulette adds, less what lines give up for them and roulette takes, each times the share of life left
	controls
)

// fitted is the number of controls whose coefficients are fitted. That of Weights is
// not: a weight that is added at an hour makes what a life of that weight makes in the
// time left, so its coefficient is the figure itself. (Fitted, it would follow the few
// lives in which most was added, and the intervals would be far too narrow.)
const fitted = int(Weights)

// Controls is one number for each control.
type Controls [controls]float64

// YearControl names a control that every year of a life has, of which the mean is 0 too.
// The chance of a loss by the end of a year has those of the years until then beside the
// other controls.
type YearControl int

// The controls of a year.
const (
	YearArrivals YearControl = iota // those of [Arrivals] that are originals and fall in it
	YearEvents                      // common-cause events of a life's main line that fall in it, less the chance of that
	yearControls
)

// YearControls is one number for each control of a year.
type YearControls [yearControls]float64

// Sample is the loss chance of some lives with their controls.
type Sample struct {
	Loss     float64
	Controls Controls
}

// Add adds other lives.
func (s *Sample) Add(o *Sample) {
	s.Loss += o.Loss
	for c, x := range o.Controls {
		s.Controls[c] += x
	}
}

// Sample returns the trial as a sample of one life.
func (t *Trial) Sample() Sample { return Sample{t.Amounts[Loss], t.Controls} }
