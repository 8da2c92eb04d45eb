package history

// Kind is what happens at an event.
type Kind int

// The kinds of events.
const (
	Fails         Kind = iota // the drive of Bay fails
	TakesSpare                // a hot spare takes its place
	Arrives                   // a new drive is in Bay, after notice and response
	Rebuilds                  // the rebuild of Bay begins, to last until Until
	Restored                  // it ends: Bay is as good as before
	CommonCause               // an event that strikes several drives at once; the failures follow it
	MeetsDefects              // Count latent defects are met, since the group has come to its tolerance
	MeetsSector               // an unreadable sector is met in the rebuild of Bay
	LosesSet                  // Set loses its footage; it starts again at Until
	StartsAgain               // Set starts again, empty, its failed drives replaced
	SpareReturned             // a hot spare is back in the recorder
)

// Event is one thing that happens. Fields that do not belong to its kind are 0.
type Event struct {
	At    float64
	Kind  Kind
	Bay   int
	Group int // from 0
	Set   int // from 0
	// DownInGroup is the drives of the group that are down after the event.
	DownInGroup int
	Until       float64
	Count       int     // of defects met
	BySector    bool    // LosesSet: an unreadable sector did it, not a failing drive
	Destroyed   float64 // LosesSet: camera-hours; MeetsDefects, MeetsSector under skip: of the stripes
}
