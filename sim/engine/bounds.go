package engine

import (
	"fmt"
	"math"

	"arrayodds/sim/model"
)

const (
	BlockTrials = 128 // trials that share a stream
	FirstBlocks = 16
	chunkBlocks = 256 // blocks that are kept before they are added up, at the most

	// Work is counted in units of about 100 ns, and bounds the time that any
	// choice can take, whatever it is: some minutes for a run, and less for a
	// block, which is the least that a run can do. The types are said, since an
	// int may have 32 bits.
	RunWork   int64 = 3e9
	chunkWork int64 = 1e8
	BlockWork int64 = 2e8
)

// A BusyError is a choice whose lives have too many events to be followed.
type BusyError struct {
	Choice   string
	Failures float64 // of its drives in a service life, roughly
}

func (e *BusyError) Error() string {
	return fmt.Sprintf("choice %q: %s", e.Choice, e.Reason())
}

// Reason is the error without the name of the choice.
func (e *BusyError) Reason() string {
	return fmt.Sprintf("its drives fail about %.3g times in the service life, and with all that follows that is more than can be simulated; right would be fewer drives, a lower failure rate, shorter repairs, fewer common-cause events or a shorter life", e.Failures)
}

// ExpectedFailures is the drives that fail in a life, roughly.
func ExpectedFailures(sys *model.System) float64 {
	each := math.Max(sys.Life.Cumulative(sys.Horizon), sys.Horizon/sys.Life.Mean())
	if sys.Uncertain > 0 {
		each *= sys.Uncertain
	}
	each += sys.ShockRate * sys.ShockChance * sys.Horizon
	return each * float64(sys.Groups()*sys.Drives)
}
