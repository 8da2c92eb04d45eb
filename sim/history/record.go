package history

import (
	"math"

	"arrayodds/sim/law"
)

// MaxEvents is how many events, and how many latent defects, a life may have that is
// written down: more than anybody reads.
const MaxEvents = 20000

// Record is the course of one life, as it is simulated.
type Record struct {
	Phase float64  // hour of the week at time zero
	Life  law.Life // of the drives
	Rate  float64  // multiplies every hazard of this life
	Batch float64  // multiplies those of the drives of time zero

	// Events are in the order in which they happen. Package trace fills in
	// DownInGroup and Destroyed, and under stop the Count of what lost a set.
	// SpareReturned is left to it too: Until of TakesSpare says when. Under skip
	// there is no MeetsDefects and no MeetsSector.
	Events []Event
	// Full reports that there were more than MaxEvents, and that the rest is missing.
	Full bool
}

// Add adds an event. Times do not go back, not even by what rounding does.
func (r *Record) Add(e Event) {
	if len(r.Events) == MaxEvents {
		r.Full = true
		return
	}
	if n := len(r.Events); n > 0 {
		e.At = math.Max(e.At, r.Events[n-1].At)
	}
	r.Events = append(r.Events, e)
}
