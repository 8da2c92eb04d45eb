package now

import (
	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
)

// Month is how far ahead is looked, in hours.
const Month = 30 * 24.0

// Request is an array as it stands, and how to simulate it.
type Request struct {
	Site        array.Site
	Choice      array.Choice
	State       array.State
	Options     engine.Options
	Assumptions []site.Assumption
}

// Result is what is to be expected of an array from now on, and what can be done.
type Result struct {
	Site   array.Site
	Choice array.Choice
	State  array.State
	Sizing array.Sizing

	// Down is the most drives that are down in one group, of which it stands Tolerance.
	Down, Tolerance int

	BeforeWhole estimate.Estimate // chance of losing footage before all drives have run again
	Loss        estimate.Estimate // within 30 days
	Curve       []Point           // by the end of each hour
	Whole       Whole
	Exact       *Exact // nil where the chain does not have the laws

	Actions  []Action // what takes off most first; the last are those that take off nothing
	Together *Action  // all that speed the rebuild up, at once; nil where there are not two
	Copies   []Copy   // by camera group, and all at the end; none without cameras

	RebuildHours float64 // of a whole rebuild as the site has it; 0 where nothing is rebuilt

	Says        Says
	Seed        uint64
	Accuracy    float64
	Trials      int
	StoppedBy   engine.StoppedBy
	Warnings    []string
	Assumptions []site.Assumption
}

// Lost reports whether more drives of a group are down than it stands.
func (r *Result) Lost() bool { return r.Down > r.Tolerance }

// Point is the chance of losing footage by an hour from now.
type Point struct {
	Hours float64
	Loss  estimate.Estimate
}

// Whole is when all drives run again, in lives that come to that before they lose
// footage: hours from now, by plain simulation.
type Whole struct {
	Median, Ninety estimate.Estimate
	Lives          int
	Not            estimate.Estimate // share of lives that do not come to it within 30 days
}

// Action is one thing that can be done.
type Action struct {
	Name  string // as one would tell somebody to do it
	What  string // what it was taken to change
	Loss  estimate.Estimate
	Ratio estimate.Estimate // of the loss chance with it ÷ without, from the same streams
	// RebuildHours is how long a whole rebuild takes with it.
	RebuildHours float64
	OfRecording  bool // it lowers or stops recording
}

// idle reports whether an action changes nothing at all.
func (a *Action) idle() bool { return a.Ratio.Value == 1 && a.Ratio.Low == a.Ratio.High }

// Helps reports whether an action takes off at least a twentieth, beyond doubt.
func (a *Action) Helps() bool { return a.Ratio.Value <= 0.95 && a.Ratio.High < 1 }

// Copy is footage of some cameras copied out of the array before anything else.
//
// The copy takes the last week, or all that is due where that is less, at the least of the
// rate of a gigabit network (100 MB/s; common practice, no source), that of the recorder's
// link, and half of what recording leaves of the drives. A rebuild that runs meanwhile
// has that much less. Reading adds no other risk than the site's degraded multiplier has
// already; of what is read so many sectors are unreadable as the drive's read error rate
// says, and where no redundancy is left each is a gap of a moment in the copy.
type Copy struct {
	Label string // of the camera group; empty: all
	Days  float64
	Bytes float64
	Rate  float64           // bytes/s
	Hours float64           // that it takes
	Loss  estimate.Estimate // chance of losing footage before it is done
	Ratio estimate.Estimate // of that ÷ the loss chance of 30 days without
	// Unreadable is the sectors expected unreadable in what is read.
	Unreadable float64
	// Delay is how much longer a rebuild takes, in hours, if it runs all the while.
	Delay float64
	// Other is the loss chance of 30 days of an array whose rebuild takes so much
	// longer ÷ without.
	Other estimate.Estimate
}
