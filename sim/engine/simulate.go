package engine

import (
	"context"
	"math"

	"arrayodds/sim/model"
)

// Simulate runs trials of a system until its figures are as accurate as was asked for
// or the budget is used up, and returns the sums of all trials and which of the two it
// was. It takes the plain simulation by itself where that is the better ([PlainServes]).
// The error is that of the context, or a [BusyError] without the label of the choice.
//
// With [Options.Blocks] it runs so many blocks and asks for nothing.
//
// Accuracy is asked of the loss chance. Other figures that are shown may be known less
// well; for them a run goes on, but not for more than a few times as long.
func Simulate(ctx context.Context, sys *model.System, opt Options) (*model.Sums, StoppedBy, error) {
	if opt.Blocks > 0 {
		return simulateFixed(ctx, sys, opt)
	}
	way, err := choose(ctx, sys, opt)
	if err != nil {
		return nil, "", err
	}
	opt.Plain, opt.lives = way.plain, way.lives
	r := NewRunner(sys, opt)
	goal := min(FirstRound, opt.MaxBlocks())
	enough := 0 // blocks at which the loss chance was accurate enough; 0 while it is not
	for {
		if err := r.RunTo(ctx, goal); err != nil {
			return nil, "", err
		}
		halfWidth := RelativeHalfWidth(r.Total)
		needed := NextBlocks(r.Blocks, halfWidth, opt.Accuracy)
		done := false
		if halfWidth <= opt.Accuracy && len(Warnings(r.Total)) == 0 {
			if enough == 0 {
				enough = r.Blocks
			}
			if done = opt.LossOnly; !done {
				others := WidestOther(r.Total)
				limit := min(max(leastForOthers, overrun*enough), max(r.Blocks, int(workForOthers/r.perBlock())))
				done = others <= opt.Accuracy || r.Blocks >= limit
				needed = min(limit, NextBlocks(r.Blocks, others, opt.Accuracy))
			}
		} else {
			enough = 0
		}
		if done {
			needed = r.Blocks
		}
		goal = min(needed, opt.MaxBlocks())
		r.ReportProgress(halfWidth, goal)
		switch {
		case done:
			return r.Total, ByAccuracy, nil
		case r.Spent():
			return r.Total, ByBudget, nil
		}
	}
}

// A run goes on for other figures than the loss chance up to so many times the blocks
// that this one needed, or to so many where that is more.
const (
	overrun        = 4
	leastForOthers = 16
	// workForOthers is the work, about a second, after which it does not.
	workForOthers int64 = 1e7
)

// NextBlocks returns the number of blocks that the next round should bring a run
// to, which has that many now and that relative half-width. The half-width falls as
// the root of the number of blocks. Early guesses are rough, so a round multiplies
// the run by 4 at most and by 1¼ at least.
func NextBlocks(blocks int, halfWidth, accuracy float64) int {
	factor := math.Min(4, 1.05*(halfWidth/accuracy)*(halfWidth/accuracy))
	if !(factor > 1.25) {
		factor = 1.25
	}
	return int(math.Ceil(float64(blocks) * factor))
}
