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
	Values      []float64 // the figure at the independent points: 2n of [Indices], n of [Polynomial]
	Evaluations int
	// Unexplained is the share of the variance that the polynomial of [Polynomial]
	// leaves: what it misses at points that it was not fitted to.
	Unexplained float64
}

// Eval works out the figure at each row, which has one number of (0, 1) for each
// input. It may do so in any order; what it gives for a row should depend on
// nothing else. Rows are not kept.
type Eval func(ctx context.Context, rows [][]float64) ([]float64, error)

// Indices returns the indices of k inputs, 1 or more, from n points, each
// evaluated with k+2 rows: n is rounded up to a multiple of 16, and is 64 at the
// least. eval is called 16 times, from one goroutine, with n/16 × (k+2) rows.
//
// The figures of one call may all be off by the same amount, which may be another one in
// another call, as those of points are that are simulated from the same random streams;
// nothing of that goes into the indices.
//
// Where the figure is the same everywhere the indices are 0. An error is eval's
// own, the context's, or that of figures that are not finite.
func Indices(ctx context.Context, k, n int, seed uint64, eval Eval) (Result, error) {
	if k < 1 {
		return Result{}, errors.New("sensitivity: there must be an input")
	}
	each := max(4, (n+Replicates-1)/Replicates)
	var parts []*sums
	var means means
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
		means[r] = mean(y[:2*each])
		parts = append(parts, add(y, means[r], k, each))
		res.Values = append(res.Values, y[:2*each]...)
	}
	found := jackknife(func(out int) []float64 {
		return append([]float64{means.without(out)}, pool(parts, out).figures()...)
	})
	res.Mean, res.Variance, res.Together = found[0].plus(means[0]), found[1], found[2].share()
	for i := 3; i < len(found); i += 2 {
		res.First = append(res.First, found[i].share())
		res.Total = append(res.Total, found[i+1].share())
	}
	return res, nil
}

// finite returns an error where figures are not as many as rows, or not finite.
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
