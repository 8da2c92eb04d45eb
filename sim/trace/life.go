package trace

import "arrayodds/sim/history"

// Life is one simulated life of a choice with every event in it. Times are hours
// since the start; places for drives are called bays and counted from 0, group by
// group, hot spares left out.
type Life struct {
	Horizon       float64 // service life
	Phase         float64 // hour of the week at time zero, 0 for Monday 00:00
	Bays          int
	DrivesInGroup int
	GroupsPerSet  int
	Tolerance     int // failures that a group survives

	Spans   []Span          // by bay, then by time; they cover every bay from 0 to Horizon
	Defects []Defect        // by time; none where drives have none
	Events  []history.Event // by time
	Held    []Held          // by time, straight in between; nil without cameras

	Lost      bool    // a group was lost and footage with it, at least once
	FirstLoss float64 // when; NaN where none was
	Destroyed float64 // camera-hours destroyed over the life; 0 without cameras
}

// State is the state of a bay.
type State int

// The states of a bay.
const (
	Running    State = iota
	Waiting          // its drive failed; the new one is not in yet
	Queued           // the new drive is in, another rebuild of its group is running
	Rebuilding       // its contents are being made anew
	Down             // its set has lost its footage and has not started again
)

// Span is a time for which a bay is in one state.
type Span struct {
	Bay      int
	State    State
	From, To float64
	Drive    int // number of the bay's drive, from 1; while it is replaced that of the new one
}

// Defect is a latent defect of a running drive: an unreadable sector that nobody
// knows of.
type Defect struct {
	Bay      int
	From, To float64 // arises; is cleared, or goes with its drive
	Met      bool    // a rebuild had to read it, at To
}

// Held is how much footage there is at a time: camera-hours held, divided by the
// camera-hours recorded in an hour of all cameras together. So with cameras set
// alike it is the hours back that footage reaches.
type Held struct{ At, Hours float64 }
