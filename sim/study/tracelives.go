package study

import (
	"context"

	"arrayodds/array"
	"arrayodds/sim/trace"
)

// Sizes and waits that the slow motion of a rebuild can be set to, beside the
// choice's own.
var (
	slowSizes = []float64{2, 4, 8, 12, 16, 20, 24, 30} // TB
	slowWaits = []float64{0, 4, 12, 24, 48, 72, 120, 168, 336}
)

// TraceLives follows single lives of one choice, and one of its rebuilds.
func TraceLives(ctx context.Context, a Request, lives int, onlyLosses bool) (Replay, error) {
	file := a.Source.File()
	choice := file.Site.Choices[a.Choices[0]]
	out := Replay{Site: file.Site, Choice: choice, Seed: a.Options.Seed, OnlyLosses: onlyLosses, Assumptions: AssumptionsOn(file, choice)}
	var err error
	if out.Sizing, err = file.Site.Size(choice); err != nil {
		return out, err
	}
	var sizes []float64
	for _, tb := range slowSizes {
		sizes = append(sizes, tb*array.TB)
	}
	if out.Slow, err = trace.NewRebuild(file.Site, choice, sizes, slowWaits); err != nil {
		return out, err
	}
	told, err := trace.Run(ctx, file.Site, choice, lives, onlyLosses, a.Options)
	if err != nil {
		return out, err
	}
	out.Loss, out.Lives, out.Warnings = told.LossChance, told.Lives, told.Warnings
	return out, nil
}
