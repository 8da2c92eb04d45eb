// Package fleet writes the page of a fleet: where to go first, and what the next year
// brings.
//
// The first screen of a phone has how the fleet stands. The head of the order is drawn,
// each array with its chance of a loss left alone and with the one thing done that helps
// most; the tables have more of the order, and the models of drives. What a page does not
// show of a large fleet it says, and the files have it.
package fleet

import fleet "arrayodds/sim/fleet"

// ranking is an answer, as the page draws it.
type ranking struct{ fleet.Result }
