package sensitivity

import (
	"context"
	"runtime"

	"golang.org/x/sync/errgroup"
)

// Each makes an [Eval] of a figure that is worked out row by row, by so many
// goroutines at a time (0: one for each processor). What comes out does not depend
// on their number; of several errors it is one of them.
func Each(workers int, figure func(row []float64) (float64, error)) Eval {
	if workers < 1 {
		workers = runtime.GOMAXPROCS(0)
	}
	return func(ctx context.Context, rows [][]float64) ([]float64, error) {
		y := make([]float64, len(rows))
		g, ctx := errgroup.WithContext(ctx)
		g.SetLimit(workers)
		for i, row := range rows {
			g.Go(func() (err error) {
				if err := ctx.Err(); err != nil {
					return err
				}
				y[i], err = figure(row)
				return err
			})
		}
		if err := g.Wait(); err != nil {
			return nil, err
		}
		return y, nil
	}
}
