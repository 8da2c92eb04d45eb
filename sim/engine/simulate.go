package engine

import (
	"context"
	"math"

	"arrayodds/sim/model"
)

// Simulate adds up as many trials as the options ask for.
func Simulate(ctx context.Context, sys *model.System, opt Options) (*model.Sums, StoppedBy, error) {
	r := NewRunner(sys, opt)
	budget := int(max(1, opt.MaxTrials/BlockTrials))
	goal := min(FirstBlocks, budget)
	for {
		if err := r.RunTo(ctx, goal); err != nil {
			return nil, "", err
		}
		reach := HalfWidth(r.Total)
		done := reach <= opt.Accuracy && len(Warnings(r.Total)) == 0
		spent := r.Blocks >= budget || r.Total.Work >= RunWork
		need := NextBlocks(r.Blocks, reach, opt.Accuracy)
		if done {
			need = r.Blocks
		}
		r.Report(reach, min(need, budget))
		switch {
		case done:
			return r.Total, ByAccuracy, nil
		case spent:
			return r.Total, ByBudget, nil
		}
		goal = min(need, budget)
	}
}

// NextBlocks is the number of blocks that the next round should bring the run to:
// the error falls as the root of their number. Early guesses are rough, so a
// round multiplies the run by 4 at most and by 1¼ at least.
func NextBlocks(blocks int, reach, accuracy float64) int {
	factor := math.Min(4, 1.05*(reach/accuracy)*(reach/accuracy))
	if !(factor > 1.25) {
		factor = 1.25
	}
	return int(math.Ceil(float64(blocks) * factor))
}
