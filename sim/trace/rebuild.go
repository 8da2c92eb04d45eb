package trace

// Rebuild is one outage in steps of time, for drives of several sizes and for
// several lengths of the wait: a group with no redundancy left, of which one
// drive has just failed and is waited for and rebuilt. Make it with [NewRebuild].
type Rebuild struct {
	Capacities []float64    // bytes, ascending
	Waits      []float64    // hours from the failure until the new drive is in, ascending
	OwnSize    int          // place in Capacities of the choice's own
	OwnWait    int          // place in Waits of the choice's own mean
	Runs       []RebuildRun // Runs[w*len(Capacities)+c]
}

// RebuildRun is one outage, of one size and with one wait.
type RebuildRun struct {
	Rebuild float64       // hours of the rebuild
	Exposed float64       // hours from the failure until the drive is restored
	Steps   []RebuildStep // by time, from the failure to the end of the rebuild
}

// RebuildStep is the state of an outage some hours after the failure.
type RebuildStep struct {
	Hours      float64
	Done       float64 // share of the rebuild, 0 to 1
	Read       float64 // bytes read so far from all running drives of the group
	Unreadable float64 // chance that an unreadable sector has been met so far
	Further    float64 // chance that a further drive of the group has failed so far, which loses it
}
