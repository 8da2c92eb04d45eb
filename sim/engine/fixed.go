package engine

import (
	"context"
	"errors"

	"arrayodds/sim/divide"
	"arrayodds/sim/model"
)

// ErrPart is what a question ends with of which a share was worked out
// ([Options.Ledger]): there is no result, and what was found is in the ledger.
var ErrPart = errors.New("a part of the question was worked out, and no result")

// Undivided returns options without a fixed number of blocks and without a ledger: for
// what every process that needs it works out by itself.
func (o Options) Undivided() Options {
	o.Blocks, o.Ledger = 0, nil
	return o
}

// simulateFixed runs the blocks that are asked for, or the share of them that the ledger
// is of, or takes them from a ledger that has all, and adds them pairwise: see package
// divide. The error of a part may be a [BusyError] that the whole would have too.
func simulateFixed(ctx context.Context, sys *model.System, opt Options) (*model.Sums, StoppedBy, error) {
	key := divide.KeyOf("run", sys, opt.Seed, opt.Blocks, opt.Plain, opt.Branching)
	if opt.Ledger.Merging() {
		total, busy, err := opt.Ledger.FoundRun(key, sys, opt.Blocks)
		if busy {
			err = NewBusyError(sys)
		}
		if err != nil {
			return nil, "", err
		}
		return total, fixedStop(total, opt), nil
	}
	plain, err := PlainServes(ctx, sys, opt)
	if err != nil {
		return nil, "", err
	}
	opt.Plain = plain
	r, tree := NewRunner(sys, opt), divide.NewTree(sys)
	from, to := opt.Ledger.Share().Span(opt.Blocks)
	r.first = from
	r.EachBlock = func(s *model.Sums) { tree.Add(from+r.Blocks-1, s) }
	err = r.RunTo(ctx, to-from)
	if opt.Ledger.Dividing() {
		if _, busy := errors.AsType[*BusyError](err); busy {
			opt.Ledger.KeepBusy(key)
		}
	}
	if err != nil {
		return nil, "", err
	}
	total := tree.Total()
	total.Plain = plain
	if opt.Ledger.Dividing() {
		opt.Ledger.KeepRun(key, tree, plain)
	}
	r.ReportProgress(RelativeHalfWidth(total), r.Blocks)
	return total, fixedStop(total, opt), nil
}

// fixedStop says what a run that was not to stop came to: its blocks are its budget.
func fixedStop(s *model.Sums, opt Options) StoppedBy {
	if RelativeHalfWidth(s) <= opt.Accuracy && len(Warnings(s)) == 0 {
		return ByAccuracy
	}
	return ByBudget
}
