package study

import (
	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/estimate"
)

// Ranking is the result of [Rank].
type Ranking struct {
	Site        array.Site
	Seed        uint64
	Accuracy    float64 // as in [Comparison]
	Thorough    bool    // with shares of variance
	Choices     []RankedChoice
	Assumptions []site.Assumption
	Notes       []string // as in [Sweep]
}

// RankedChoice is one choice with the inputs that move its loss chance, the
// widest swing first. Inputs that do not bear on it are left out.
type RankedChoice struct {
	Choice array.Choice
	Likely estimate.Estimate // loss chance with every input at its likely value
	Inputs []RankedInput
	// Spread is, where shares were worked out, the interval that holds 90 % of the
	// loss chances when all inputs move at once, and Noise the share of the
	// variance that is the simulation's own.
	Spread estimate.Estimate // Value is the median
	Noise  float64
}

// RankedInput is an input moved from its low to its high, all others as likely.
type RankedInput struct {
	Path              string
	Called            string // what people call it, in a sentence
	Low, Likely, High string // as they would be written
	Given             bool   // the range is the site file's
	Range             string // else what was taken: "half to twice"
	AtLow, AtHigh     estimate.Estimate
	// Swing is the larger of the two loss chances ÷ the smaller, 1 or more, with
	// the interval that the same random streams give; High is +Inf where one of
	// them is 0.
	Swing estimate.Estimate
	// First and Total are shares of the variance of the logarithm of the loss
	// chance: by the input alone, and with all that it does together with others.
	// Nil where not worked out.
	First, Total *estimate.Estimate
}

// slight is the factor below which a swing is one that nobody has to find out.
const slight = 1.05

// Slight reports whether the input moves the chance by less than 5 %, beyond doubt.
func (in RankedInput) Slight() bool { return in.Swing.High < slight }
