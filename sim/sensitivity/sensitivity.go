// Package sensitivity tells how much of the variance of a figure comes of each
// of the inputs that it depends on: Sobol' indices, with intervals.
//
// The inputs are independent and uniform on (0, 1); who calls maps them to what
// they mean. The first index of an input is the share of the variance that goes
// if that input becomes known; the total index is the share that is left if all
// others become known. What the total has above the first the input does together
// with others. First indices add up to 1 at most, totals to 1 at least.
//
// # Method
//
// The sample is that of A. Saltelli, "Making best use of model evaluations to
// compute sensitivity indices", Computer Physics Communications 145, 2002: two
// independent samples A and B, and for each input B with that column taken from
// A. First indices are by A. Saltelli, P. Annoni, I. Azzini, F. Campolongo, M.
// Ratto, S. Tarantola, "Variance based sensitivity analysis of model output",
// Computer Physics Communications 181, 2010, with the mean taken off: the
// covariance of the figure at A with what that column does to the figure at B. An
// input that does little is so told with little noise; the correlation of two
// points that share the one input (the estimator T of A. Janon and others, 2014)
// has the same noise for every input, which drowns small shares. Total indices are
// by M. J. W. Jansen, "Analysis of variance designs for model output", Computer
// Physics Communications 117, 1999: half the mean square of the difference between
// two points that share all but the one input. (All from memory.)
//
// A and B come as 16 independent replicates, each a Latin hypercube (M. D. McKay,
// R. J. Beckman, W. J. Conover, Technometrics 21, 1979). Sums are pooled over the
// replicates, and the intervals are those of the jackknife that leaves one
// replicate out at a time, with Student's t on 15 degrees of freedom.
//
// A figure that is itself an estimate adds the variance of its noise to all
// totals, unless the noise is the same at every point, as it nearly is where all
// points are simulated from common random streams.
package sensitivity

import (
	"context"
	"errors"
	"fmt"
	"math"

	"arrayodds/sim/stream"
)

// Replicates is the number of independent samples that an estimate is made of.
const Replicates = 16

// Estimate is a figure with its 95 % interval.
type Estimate struct{ Value, Low, High float64 }

// Result is what moves the figure, by how much.
type Result struct {
	First, Total []Estimate // one an input, each brought back to 0 to 1
	// Together is 1 less the sum of the first indices: what comes of inputs
	// acting together alone.
	Together Estimate

	Mean        Estimate
	Variance    Estimate
	Values      []float64 // the figure at the 2n independent points
	Evaluations int
}

// Eval works out the figure at each row, which has one number of (0, 1) for each
// input. It may do so in any order; what it gives for a row should depend on
// nothing else. Rows are not kept.
type Eval func(ctx context.Context, rows [][]float64) ([]float64, error)

// Indices estimates the indices of k inputs, 1 or more, from n points, each
// evaluated with k+2 rows: n is rounded up to a multiple of 16, and is 64 at the
// least. eval is called 16 times, from one goroutine, with n/16 × (k+2) rows.
//
// Where the figure is the same everywhere the indices are 0. An error is eval's
// own, the context's, or that of figures that are not finite.
func Indices(ctx context.Context, k, n int, seed uint64, eval Eval) (Result, error) {
	if k < 1 {
		return Result{}, errors.New("sensitivity: there must be an input")
	}
	each := max(4, (n+Replicates-1)/Replicates)
	var parts []*sums
	var centre float64
	res := Result{Evaluations: Replicates * each * (k + 2)}
	for r := range uint64(Replicates) {
		if err := ctx.Err(); err != nil {
			return Result{}, err
		}
		rows := design(stream.New(seed, r), k, each)
		y, err := eval(ctx, rows)
		if err != nil {
			return Result{}, err
		}
		if err := finite(y, rows); err != nil {
			return Result{}, err
		}
		if r == 0 {
			centre = y[0]
		}
		parts = append(parts, add(y, centre, k, each))
		res.Values = append(res.Values, y[:2*each]...)
	}
	found := jackknife(parts)
	res.Mean, res.Variance, res.Together = found[0].plus(centre), found[1], found[2].share()
	for i := 3; i < len(found); i += 2 {
		res.First = append(res.First, found[i].share())
		res.Total = append(res.Total, found[i+1].share())
	}
	return res, nil
}

func finite(y []float64, rows [][]float64) error {
	if len(y) != len(rows) {
		return fmt.Errorf("sensitivity: %d figures for %d rows", len(y), len(rows))
	}
	for i, v := range y {
		if math.IsNaN(v) || math.IsInf(v, 0) {
			return fmt.Errorf("sensitivity: the figure is %g at %v", v, rows[i])
		}
	}
	return nil
}
