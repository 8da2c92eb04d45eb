package main

import (
	"context"
	"errors"
	"fmt"
	"runtime"

	"arrayodds/array"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"

	"golang.org/x/sync/errgroup"
)

// maxRunning is how many choices are begun before one of them is done.
const maxRunning = 8

// outcomes simulates every choice of a site; they come back in its order. A choice
// too busy to be simulated is marked, and the others are compared all the same;
// the error is for a site that has no other.
//
// Choices run side by side, each with as many workers as there may be in all:
// some wait for the last of their round while others work. Slots bound how many
// work at once; how many choices are begun bounds the memory.
func (p program) outcomes(ctx context.Context, s array.Site, opt engine.Options) ([]study.Outcome, error) {
	sizes, err := sizeChoices(s)
	if err != nil {
		return nil, err
	}
	if opt.Workers == 0 {
		opt.Workers = runtime.GOMAXPROCS(0)
	}
	opt.Slots = engine.NewSlots(opt.Workers)
	bar := newProgress(p.err, len(s.Choices))
	defer bar.clear()

	out := make([]study.Outcome, len(s.Choices))
	busy := make([]*engine.BusyError, len(s.Choices))
	group, ctx := errgroup.WithContext(ctx)
	group.SetLimit(min(opt.Workers, maxRunning))
	for i, c := range s.Choices {
		group.Go(func() error {
			opt := opt
			opt.Progress = bar.forChoice(i)
			result, err := p.simulate(ctx, s, c, opt)
			if err != nil && !errors.As(err, &busy[i]) {
				return fmt.Errorf("choice %q: %w", c.Label, err)
			}
			out[i] = study.Outcome{Choice: c, Sizing: sizes[i], Result: result}
			return nil
		})
	}
	if err := group.Wait(); err != nil {
		return nil, err
	}
	var errs usageErrors
	for _, b := range busy {
		if b == nil {
			return out, nil // the busy ones among them say so
		}
		errs = append(errs, b.Error())
	}
	return nil, errs
}
