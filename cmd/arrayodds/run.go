package main

import (
	"context"
	"io"

	"arrayodds/sim/study"
)

// runAndWrite computes what is asked of a site, with a progress bar, writes the result in
// every format that is asked for, and prints its summary.
func runAndWrite[R any](ctx context.Context, p program, outs []output, asked study.Request, compute func(context.Context, study.Request) (R, error), summary func(io.Writer, R) error) error {
	bar := newProgress(p.err, 1)
	asked.Options.Progress = bar.forChoice(0)
	result, err := compute(ctx, asked)
	bar.clear() // before anything is printed
	if err != nil {
		return asUsageError(err)
	}
	return writeResult(ctx, p, outs, result, summary)
}
