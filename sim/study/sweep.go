package study

import (
	"fmt"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
)

// Sweep is the result of [Vary].
type Sweep struct {
	Site        array.Site
	Seed        uint64
	Accuracy    float64    // as in [Comparison]
	Inputs      []Input    // one or two
	Curves      []Curve    // one a choice
	Against     string     // label of the choice that the others are held against; empty: none
	BreakEven   *BreakEven // nil: not asked for
	Assumptions []site.Assumption
	Notes       []string // what a reader has to know of how it was done, a sentence each
}

// ValueAt returns which value of an input the point at a place of a curve has. The
// first input's values run fastest.
func (s Sweep) ValueAt(input, place int) int {
	n := len(s.Inputs[0].Texts)
	if input == 0 {
		return place % n
	}
	return place / n
}

// Input is an input with the values that it is given.
type Input struct {
	Path    string    // "care.response"
	Called  string    // what people call it, in a sentence: "response time"
	Unit    string    // of Values: "h", "%", "TB"; empty for plain numbers
	Texts   []string  // every value as it would be written, "24 h"
	Values  []float64 // in Unit, ascending; nil where the values are words
	Log     bool      // evenly spaced by ratio, and to be drawn so
	Own     float64   // what the site file has, in Unit; NaN where that is no single number or differs among choices
	OwnText string    // the same in words: "lognormal: half within 36 h, nine in ten within 96 h"
}

// Curve is one choice over all values.
type Curve struct {
	Choice array.Choice      // as the site file has it
	Own    estimate.Estimate // loss chance as the site file has it
	Points []Point           // one a value; with two inputs one a pair: Points[j*len(Inputs[0].Texts)+i] has value i of the first and j of the second
}

// Point is a choice at one value, or pair of values.
type Point struct {
	Absent     string            // why there are no figures: "14 drives, and the recorder has 12 bays"; empty: there are
	Drives     int               // drives in all, which may have been made to fit the demand
	Groups     int               // that they are divided into
	Meets      bool              // holds the footage
	Purchase   float64           // in the site's currency; NaN: not known
	CostOfLife estimate.Estimate // of the service life: the total that [Outcome.CostOfLife] has
	Loss       estimate.Estimate // chance of losing footage within the service life
	Clip       estimate.Estimate // missing-clip chance; Value NaN without cameras
	// ToOwn is Loss ÷ the choice's loss chance as the site file has it, with the
	// interval that the same random streams give; Apart is the interval that two
	// runs with streams of their own would have given.
	ToOwn, Apart estimate.Estimate
	// Against is Loss ÷ the loss chance, at the same value, of the choice that is
	// held against; Value NaN for that choice itself and where there is none.
	Against  estimate.Estimate
	Warnings []string
}

// Untouched reports whether the inputs do not bear on the choice: at every value it is
// one and the same system, that of the site file unless its drives were made to fit.
func (c Curve) Untouched() bool {
	first := c.Points[0]
	for _, p := range c.Points {
		// The same system is simulated once, which leaves all digits alike.
		if p.Absent != "" || !(p.Loss.Value > 0) || p.Loss != first.Loss || p.ToOwn != first.ToOwn || p.Drives != first.Drives || p.Groups != first.Groups || p.Meets != first.Meets {
			return false
		}
	}
	return len(c.Points) > 1
}

// regrouped says, a sentence a choice, where its drives are in another number of groups
// than as the site file has it.
func (s Sweep) regrouped() (notes []string) {
	for _, c := range s.Curves {
		own := max(1, c.Choice.Groups)
		var at []string
		for i, p := range c.Points {
			if p.Absent == "" && p.Groups != own {
				text := s.Inputs[0].Texts[s.ValueAt(0, i)]
				if len(s.Inputs) > 1 {
					text += " with " + s.Inputs[1].Texts[s.ValueAt(1, i)]
				}
				at = append(at, fmt.Sprintf("%s at %s", figure.Drives(p.Drives, max(1, p.Groups)), text))
			}
		}
		if at != nil {
			notes = append(notes, fmt.Sprintf("The number of groups changes too: %q has %s in the site file, and %s.", c.Choice.Label, figure.Count(own, "group", "groups"), figure.Some(at)))
		}
	}
	return notes
}

// Logarithmic reports whether the values are to be drawn on a logarithmic scale, and
// can be.
func (in Input) Logarithmic() bool { return in.Log && in.Values != nil && in.Values[0] > 0 }

// BreakEven is the values of an input at which a goal is met.
type BreakEven struct {
	Goal   string  // in words: `a loss chance of 1 in 10 000 within 5 years`, or `as safe as "RAID 6, 8 x 12 TB" as it stands`
	Chance float64 // the loss chance that is to be met, as a level in the drawing; 0: not known
	Rows   []BreakEvenRow
}

// BreakEvenRow is the value of one choice.
type BreakEvenRow struct {
	Choice array.Choice
	// Value is in the unit of the first input, with its interval; not known where
	// the range holds none.
	Value estimate.Estimate
	Text  string // the value with its unit, "31 h"
	// Words say what there is in place of a value, or beside it: "safer over the
	// whole range", "crosses more than once: the first is given".
	Words string
}
