package sensitivity

import (
	"context"
	"errors"

	"arrayodds/sim/stream"
)

// Polynomial returns the indices of a polynomial that is fitted to the figure at n
// points, with what it leaves unexplained in their intervals ([Result.Unexplained]).
// There is one coordinate for each input, 1 or more; n is rounded up to a multiple of
// 16, and is 64 at the least. eval is called 16 times, with n/16 rows each.
//
// As with [Indices], the figures of one call may all be off by the same amount.
//
// Where much is left unexplained the intervals say little: then [Indices] serves, which
// asks nothing of the figure and needs many times the points.
//
// Where the figure is the same everywhere the indices are 0. An error is eval's own, the
// context's, or that of figures that are not finite.
func Polynomial(ctx context.Context, inputs []Coordinate, n int, seed uint64, eval Eval) (Result, error) {
	if len(inputs) == 0 {
		return Result{}, errors.New("sensitivity: there must be an input")
	}
	each := max(4, (n+Replicates-1)/Replicates)
	var families []*family
	for _, x := range inputs {
		families = append(families, newFamily(x, highest))
	}
	var all []float64
	var of [][][]float64
	for r := range uint64(Replicates) {
		if err := ctx.Err(); err != nil {
			return Result{}, err
		}
		rows := hypercube(stream.New(seed, r), len(inputs), each)
		y, err := eval(ctx, rows)
		if err != nil {
			return Result{}, err
		}
		if err := finite(y, rows); err != nil {
			return Result{}, err
		}
		all = append(all, y...)
		for _, row := range rows {
			of = append(of, polynomials(families, row))
		}
	}
	var best *chaos
	for _, s := range shapes {
		// Two points for each coefficient at the least.
		if c := newChaos(len(inputs), s.terms(families, len(all)/2), of, all); c != nil && (best == nil || c.missed < best.missed) {
			best = c
		}
	}
	if best == nil {
		return Result{}, errors.New("sensitivity: too few points for so many inputs")
	}
	return best.result(all), nil
}

// chaos is a polynomial in the inputs, fitted to all replicates and to all but each.
type chaos struct {
	inputs  int
	terms   []term // without the constant
	means   means
	whole   coefficients
	without [Replicates]coefficients
	// missed is the mean square of what each fit misses at the replicate left out, but
	// for what is the same at all of its points.
	missed float64
}

// coefficients is a polynomial that was fitted: the coefficients, and their squares less
// what chance adds to these.
type coefficients struct{ by, square []float64 }

// newChaos fits the coefficients of terms, and a constant for each replicate, to the
// figure at rows, of which the polynomials of each input are given; nil without terms, or
// where one cannot be told from the others.
func newChaos(inputs int, terms []term, of [][][]float64, y []float64) *chaos {
	if terms == nil {
		return nil
	}
	c := &chaos{inputs: inputs, terms: terms}
	all := newSquares(len(terms))
	var parts [Replicates]*replicate
	each := len(y) / Replicates
	for r := range parts {
		from, to := r*each, (r+1)*each
		parts[r] = newReplicate(terms, of[from:to], y[from:to])
		c.means[r] = parts[r].mean
		all.add(&parts[r].squares, 1)
	}
	if !c.whole.fit(all, Replicates) {
		return nil
	}
	for r, p := range parts {
		all.add(&p.squares, -1)
		if !c.without[r].fit(all, Replicates-1) {
			return nil
		}
		all.add(&p.squares, 1)
		c.missed += p.missed(c.without[r].by) / Replicates
	}
	return c
}

// replicate is the terms and the figure at the points of a replicate, less their means.
type replicate struct {
	squares
	mean    float64 // of the figure
	x       [][]float64
	figures []float64
}

func newReplicate(terms []term, of [][][]float64, y []float64) *replicate {
	n := float64(len(y))
	r := &replicate{squares: *newSquares(len(terms)), mean: mean(y)}
	means := make([]float64, len(terms))
	for i := range y {
		row := make([]float64, len(terms))
		for k, t := range terms {
			row[k] = t.value(of[i])
			means[k] += row[k] / n
		}
		r.x = append(r.x, row)
	}
	for i, row := range r.x {
		for k := range row {
			row[k] -= means[k]
		}
		r.figures = append(r.figures, y[i]-r.mean)
		r.row(row, r.figures[i])
	}
	return r
}

// missed returns the mean square of what a polynomial misses.
func (r *replicate) missed(by []float64) (square float64) {
	for i, miss := range r.figures {
		for k, b := range by {
			miss -= b * r.x[i][k]
		}
		square += miss * miss / float64(len(r.x)-1)
	}
	return square
}

// fit solves a least squares problem of so many replicates.
func (c *coefficients) fit(s *squares, replicates float64) bool {
	by, spread, left, ok := s.solve()
	if !ok {
		return false
	}
	each := left / (s.n - replicates - float64(len(by)))
	c.by, c.square = by, make([]float64, len(by))
	for i, b := range by {
		c.square[i] = b*b - each*spread[i]
	}
	return true
}

// result returns the indices of the polynomial, with intervals that hold whatever
// inputs what it misses comes of.
func (c *chaos) result(y []float64) Result {
	found := jackknife(func(out int) []float64 {
		of := &c.whole
		if out >= 0 {
			of = &c.without[out]
		}
		return append([]float64{c.means.without(out)}, c.figures(of)...)
	})
	res := Result{Evaluations: len(y), Values: y}
	res.Mean, res.Variance = found[0].plus(c.means[0]), found[1]
	res.Variance.Value += c.missed
	res.Variance.High += c.missed
	if res.Variance.Value > 0 {
		res.Unexplained = c.missed / res.Variance.Value
	}
	share := func(e Estimate) Estimate {
		if res.Variance.Value == 0 {
			return Estimate{}
		}
		// Of the whole the figure has at least its part of what is explained, and at
		// most that and all that is not.
		e.Low -= res.Unexplained * e.Value
		e.High += res.Unexplained * (1 - e.Value)
		return e.share()
	}
	res.Together = share(found[2])
	for i := 3; i < len(found); i += 2 {
		res.First, res.Total = append(res.First, share(found[i])), append(res.Total, share(found[i+1]))
	}
	return res
}

// figures returns the variance, what the first indices leave, and then the first and the
// total index of each input, all of the polynomial itself.
func (c *chaos) figures(of *coefficients) []float64 {
	out := make([]float64, 2+2*c.inputs)
	for k, t := range c.terms {
		square := of.square[k]
		out[0] += square
		if !t.alone() {
			out[1] += square
		}
		for i := range c.inputs {
			if t.has(i) {
				if out[3+2*i] += square; t.alone() {
					out[2+2*i] += square
				}
			}
		}
	}
	for i := range out[1:] {
		if out[0] > 0 {
			out[1+i] /= out[0]
		} else {
			out[1+i] = 0
		}
	}
	return out
}
