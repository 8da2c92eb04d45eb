package study

import (
	"arrayodds/array"
	"arrayodds/sim/estimate"
)

// BreakEven is the values at which something is reached.
type BreakEven struct {
	Goal   string  // in words: `a loss chance of 1 in 10 000 within 5 years`, or `as safe as "RAID 6, 8 x 12 TB" as it stands`
	Chance float64 // the loss chance that is to be met, as a level in the drawing; 0: not known
	Rows   []BreakEvenRow
}

// BreakEvenRow is one choice's value.
type BreakEvenRow struct {
	Choice array.Choice
	// Value is in the unit of the first input, with its interval; Value NaN where
	// the range holds none.
	Value estimate.Estimate
	Text  string // the value with its unit, "31 h"
	// Words say what there is in place of a value, or beside it: "safer over the
	// whole range", "crosses more than once: the first is given".
	Words string
}
