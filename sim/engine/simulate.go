package engine

import (
	"context"
	"math"

	"arrayodds/sim/model"
)

// Simulate runs trials of a system until the loss chance is as accurate as was
// asked for or the budget is used up, and returns the sums of all trials and which
// of the two it was. The error is that of the context, or a [BusyError] without the
// label of the choice.
func Simulate(ctx context.Context, sys *model.System, opt Options) (*model.Sums, StoppedBy, error) {
	r := NewRunner(sys, opt)
	goal := min(FirstRound, opt.MaxBlocks())
	for {
		if err := r.RunTo(ctx, goal); err != nil {
			return nil, "", err
		}
		halfWidth := RelativeHalfWidth(r.Total)
		done := halfWidth <= opt.Accuracy && len(Warnings(r.Total)) == 0
		needed := NextBlocks(r.Blocks, halfWidth, opt.Accuracy)
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
