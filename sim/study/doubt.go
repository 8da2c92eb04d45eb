package study

import "arrayodds/sim/estimate"

// Doubt is what a comparison says of its inputs being uncertain.
type Doubt struct {
	Settings int             // of all inputs together, at which every choice was simulated
	Inputs   []DoubtfulInput // that bear on some choice
	Idle     []DoubtfulInput // given with a range, and nothing depends on them
	// Safer[i][j] is the share of the settings in which choice i has a lower loss chance
	// than choice j, by places in Outcomes; NaN where one of them is not known.
	Safer   [][]float64
	LeftOut []LeftOut
	Why     string // there are fewer settings than 64, or none; empty: there are not
}

// DoubtfulInput is an input with what it may be.
type DoubtfulInput struct {
	Path, Called      string // as one can type it; as one says it
	Low, Likely, High string // as they would be written
	Given             bool   // the range is the site file's
	Range             string // else what was taken, and on what ground
}

// ChoiceDoubt is what the doubt about the inputs leaves of one choice's figures.
type ChoiceDoubt struct {
	LossInAll         estimate.Estimate // mean loss chance over the settings: what to reckon with
	MissingInAll      estimate.Estimate // of the missing-clip chance; needs cameras
	Low, Median, High float64           // 5, 50 and 95 % points of the loss chance over the settings
	Moves             []Move            // what moves the loss chance, the most first
	// GoalMet and MissingGoalMet are the shares of the settings that meet the site's
	// goals; NaN where it has none.
	GoalMet, MissingGoalMet float64
}

// Move is how far an input moves the loss chance of a choice.
type Move struct {
	Input  int     // place in [Doubt.Inputs]
	Factor float64 // times the chance at its high end to that at its low end; below 1 where it falls
}

// Strength returns how far the input moves the chance, whichever way: 1 or more.
func (m Move) Strength() float64 { return max(m.Factor, 1/m.Factor) }
