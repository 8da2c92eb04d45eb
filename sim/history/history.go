package history

import "arrayodds/sim/law"

// History is a life up to and with its first loss, as forced branching draws it:
// everything that chance had a hand in, but not which bay, where drives are alike to
// the estimator.
type History struct {
	Phase float64 // as in a Record, and so are the next three
	Life  law.Life
	Rate  float64
	Batch float64

	Steps []Step // by time
	Loss  Loss
}

// Step is one thing that happens before the first loss.
type Step struct {
	At    float64
	What  Move
	Group int
	// Drive is the one that fails.
	Drive Drive
	// Hours is the length of a rebuild; for waits and spares it is the time, in
	// hours since the start, when the new drive or the spare comes.
	Hours float64
	// Batch multiplies the hazard of the drive that is restored.
	Batch float64
}

// Move is what happens at a step.
type Move int

// The moves.
const (
	Failure  Move = iota // Drive of Group fails
	Common               // common cause; the failures follow
	Wait                 // the failed drive waits until Hours
	Spare                // a hot spare takes its place; it is back at Hours
	Queue                // the failed drive needs no new one: its restoring may begin
	Ready                // the wait that ends first is over
	Rebuild              // the rebuild of the drive that is ready for longest begins
	Finished             // the rebuild that ends first is over
)

// Drive is one of the running drives of a group, by what it differs from the others
// in. Several drives may answer to it.
type Drive struct {
	Any     bool    // all running drives of the group are alike; the rest is 0
	Install float64 // hour at which it came
	Batch   float64 // multiplies its hazard
}

// Loss is the first loss.
type Loss struct {
	At    float64
	By    Cause
	Group int
	Drive Drive // by a failing drive
	// Struck is, by group, the running drives that fail by common cause.
	Struck []int
}

// Cause is what loses a group.
type Cause int

// The causes.
const (
	ByDrive     Cause = iota // a drive fails
	ByCommon                 // several do, by common cause
	ByDefect                 // latent defects are met; the failure before is a step
	ByReadError              // an unreadable sector is met in a rebuild
)
