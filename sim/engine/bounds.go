package engine

import (
	"fmt"
	"math"

	"arrayodds/sim/model"
)

// TrialsPerBlock is the number of trials that share a random stream.
const TrialsPerBlock = 128

// FirstRound is the number of blocks of a run's first round: 512 trials.
const FirstRound = 4

// Work is counted in units of about 100 ns, and bounds the time that any choice can
// take. The types are said, since an int may have 32 bits.
const (
	// MaxRunWork is what a run may take where its options do not say less, and what the
	// runs of all choices of a comparison take together: a minute on two cores.
	MaxRunWork int64 = 6e8
	// MaxBlockWork is what a block may take. A block is the least that a run can
	// do, so it may take less.
	MaxBlockWork int64 = 1e8

	maxChunkBlocks       = 256 // blocks that are kept before they are added up
	maxChunkWork   int64 = 2e7 // a second or two, after which the budget is looked at again

	// Progress is told again after so much work within a chunk.
	tellingWork int64 = 1e6
	// The context is looked at before each block, and within one after so much work.
	askingWork int64 = 2e4
)

// A BusyError is a choice whose lives have too many events to be simulated.
type BusyError struct {
	Choice   string  // its label
	Failures float64 // of its drives in a service life, roughly
}

func (e *BusyError) Error() string {
	return fmt.Sprintf("choice %q: %s", e.Choice, e.Reason())
}

// Reason returns the error without the name of the choice.
func (e *BusyError) Reason() string {
	return fmt.Sprintf("its drives fail about %.3g times in the service life, and with all that follows that is more than can be simulated; right would be fewer drives, a lower failure rate, shorter repairs, fewer common-cause events or a shorter life", e.Failures)
}

// NewBusyError returns the error of a system whose lives cannot be simulated, with
// a rough number of failures and without the label of the choice.
func NewBusyError(sys *model.System) *BusyError {
	// Drives that wear out and are replaced fail once a mean life, if that is more
	// often than the first ones fail.
	each := math.Max(sys.Life.Cumulative(sys.Horizon), sys.Horizon/sys.Life.Mean())
	if sys.Uncertain > 0 {
		each *= sys.Uncertain
	}
	each += sys.ShockRate * sys.ShockChance * sys.Horizon
	return &BusyError{Failures: each * float64(sys.Groups()*sys.Drives)}
}
