package engine

import (
	"cmp"
	"math"

	"arrayodds/sim/divide"
	"arrayodds/sim/estimate"
)

// Options says how a choice is simulated.
type Options struct {
	// Seed chooses the random streams. One seed gives the same digits for any
	// number of workers.
	Seed uint64
	// Accuracy is the wanted 95 % half-width of the loss chance ÷ the loss chance,
	// above 0: 0.05 asks for ±5 %. With a negative one the whole budget is used.
	Accuracy float64
	// MaxTrials is the budget. Trials come in blocks of [TrialsPerBlock], or fewer where
	// each takes long, of which there is at least one.
	MaxTrials int64
	// Blocks, above 0, is the number of blocks that every run has, whatever comes of it:
	// there is no stopping rule then, and no other bound on trials and work than that of a
	// block. They are added pairwise, so that they can be divided (package divide).
	Blocks int
	// Ledger, where it is not nil, has which share of the blocks is to be simulated, and
	// keeps it; or what was found of all. It needs Blocks.
	Ledger *divide.Ledger
	// MaxWork is the budget of work, in units of about 100 ns; 0 is [MaxRunWork].
	MaxWork int64
	// LossOnly ends a run as soon as the loss chance is accurate enough, however well
	// other figures are known by then.
	LossOnly bool
	// Plain simulates event by event, without forced branching.
	Plain bool
	// Branching keeps to forced branching where the plain simulation would be taken.
	Branching bool
	// Workers is the number of goroutines; 0 is one for each processor.
	Workers int
	// Slots, where it is not nil, bounds the workers of all runs that share it, so
	// that runs side by side take no more processors than one alone would.
	Slots Slots
	// Progress, where it is not nil, is called as soon as the first blocks are there, and
	// then after each round of trials and about every 0.1 s of work, from one goroutine
	// at a time.
	Progress func(Progress)

	lives int // trials of a block; 0 is TrialsPerBlock
}

// blockLives returns the number of trials of a block.
func (o Options) blockLives() int { return cmp.Or(o.lives, TrialsPerBlock) }

// MaxBlocks returns the budget in blocks, 1 or more.
func (o Options) MaxBlocks() int {
	if o.Blocks > 0 {
		return o.Blocks
	}
	return int(max(1, o.MaxTrials/int64(o.blockLives())))
}

// maxWork returns the budget of work.
func (o Options) maxWork() int64 {
	if o.Blocks > 0 {
		return math.MaxInt64
	}
	if o.MaxWork > 0 {
		return min(o.MaxWork, MaxRunWork)
	}
	return MaxRunWork
}

// maxBlockWork returns what a block may take: MaxBlockWork, or half of what the run may
// where it has no fewer lives to give.
func (o Options) maxBlockWork() int64 {
	if o.Blocks > 0 || o.blockLives() > fewestLives {
		return MaxBlockWork
	}
	return max(MaxBlockWork, o.maxWork()/2)
}

// Progress is how far a run is.
type Progress struct {
	Trials   int     // so far
	Accuracy float64 // 95 % half-width of the loss chance ÷ its value so far; +Inf before the first loss is seen
	Share    float64 // of the work expected in all, 0 to 1
	// Loss is the loss chance so far, with its interval. Only a run of one system has
	// it: where several are told of together it is the zero value.
	Loss estimate.Estimate
}

// PartOf returns a progress that reports to whole what lies between two shares of it; nil
// for nil.
func PartOf(whole func(Progress), from, to float64) func(Progress) {
	if whole == nil {
		return nil
	}
	return func(p Progress) {
		p.Share = from + (to-from)*p.Share
		whole(p)
	}
}

// StoppedBy says what ended a run.
type StoppedBy string

const (
	// ByAccuracy: the loss chance is as accurate as was asked for.
	ByAccuracy StoppedBy = "accuracy"
	// ByBudget: the budget of trials or of work was used up first.
	ByBudget StoppedBy = "budget"
	// ByBound: not even a block of lives ended within the work that a run may take;
	// there is a [BusyError] in place of figures.
	ByBound StoppedBy = "bound"
)
