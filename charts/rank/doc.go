// Package rank writes the page of inputs ranked by how much each moves the risk.
//
// Each choice has a drawing of its loss chance at the low and at the high end of each
// input's range, the widest swing on top, and where they were worked out one of the
// shares of variance.
package rank

import "arrayodds/sim/study"

// ranking is ranked inputs, as the page draws them.
type ranking struct{ study.Ranking }
