package sim

import (
	"context"
	"errors"

	"arrayodds/array"
	"arrayodds/sim/engine"
	"arrayodds/sim/model"
)

// Run simulates a choice of a site. The error is that of the context, a
// [engine.BusyError], or that of a site that was not read by package site. With a
// BusyError comes a result [TooBusy], with the closed forms as ever.
func Run(ctx context.Context, site array.Site, choice array.Choice, opt engine.Options) (Result, error) {
	var builder model.Builder
	sys, err := builder.System(site, choice)
	if err != nil {
		return Result{}, err
	}
	r, err := runSystem(ctx, &builder, sys, site, choice, opt)
	if busy, ok := errors.AsType[*engine.BusyError](err); ok {
		busy.Choice = choice.Label
		r = TooBusy(busy)
	} else if err != nil {
		return Result{}, err
	}
	r.Exact, r.Textbook, r.HasCameras = exactLoss(sys), textbookLoss(sys), sys.Footage.Cameras()
	return r, err
}

func runSystem(ctx context.Context, builder *model.Builder, sys *model.System, site array.Site, choice array.Choice, opt engine.Options) (Result, error) {
	sums, by, err := engine.Simulate(ctx, sys, opt)
	if err != nil {
		return Result{}, err
	}
	r := Summarise(sys, sums)
	r.StoppedBy = by
	if r.Record, err = recordSpan(ctx, sys, opt); err != nil {
		return Result{}, err
	}
	if !site.Estimated() {
		return r, nil
	}
	if r.AtLowBitRate, err = atBitRate(ctx, builder, site.Lowest(), choice, opt); err != nil {
		return Result{}, err
	}
	r.AtHighBitRate, err = atBitRate(ctx, builder, site.Highest(), choice, opt)
	return r, err
}

// atBitRate simulates a choice once more with the cameras of another site, from
// the same streams, so that the difference is sharper than the figures.
func atBitRate(ctx context.Context, builder *model.Builder, site array.Site, choice array.Choice, opt engine.Options) (*AtBitRate, error) {
	sys, err := builder.System(site, choice)
	if err != nil {
		return nil, err
	}
	opt.LossOnly, opt.Progress = true, nil
	sums, _, err := engine.Simulate(ctx, sys, opt)
	if err != nil {
		return nil, err
	}
	r := Summarise(sys, sums)
	return &AtBitRate{r.LossChance, r.MissingClip}, nil
}
