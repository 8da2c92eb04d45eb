package sensitivity

import (
	"context"
	"errors"

	"arrayodds/sim/stream"
)

// Polynomial returns the indices of a polynomial that is fitted to the figure at n
// points, with what it leaves unexplained in their intervals ([Result.Unexplained]).
// There is one coordinate for each input, 1 or more; n is rounded up to a multiple of
// 16, and is 64 at the least. eval is called once.
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
	var rows [][]float64
	for r := range uint64(Replicates) {
		rows = append(rows, hypercube(stream.New(seed, r), len(inputs), each)...)
	}
	if err := ctx.Err(); err != nil {
		return Result{}, err
	}
	y, err := eval(ctx, rows)
	if err != nil {
		return Result{}, err
	}
	if err := finite(y, rows); err != nil {
		return Result{}, err
	}
	var families []*family
	for _, x := range inputs {
		families = append(families, newFamily(x, highest))
	}
	of := make([][][]float64, len(rows))
	for i, row := range rows {
		for k, f := range families {
			of[i] = append(of[i], f.at(row[k]))
		}
	}
	var best *chaos
	for _, s := range shapes {
		// Two points for each coefficient at the least.
		if c := newChaos(len(inputs), s.terms(families, len(rows)/2), of, y); c != nil && (best == nil || c.missed < best.missed) {
			best = c
		}
	}
	if best == nil {
		return Result{}, errors.New("sensitivity: too few points for so many inputs")
	}
	return best.result(y), nil
}

// chaos is a polynomial in the inputs, fitted to all replicates and to all but each.
type chaos struct {
	inputs  int
	terms   []term
	centre  float64
	whole   coefficients
	without [Replicates]coefficients
	missed  float64 // mean square of what each fit misses at the replicate left out
}

// coefficients is a polynomial that was fitted: the coefficients, and their squares less
// what chance adds to these.
type coefficients struct{ by, square []float64 }

// newChaos fits the coefficients of terms to the figure at rows, of which the polynomials
// of each input are given; nil without terms, or where one cannot be told from the others.
func newChaos(inputs int, terms []term, of [][][]float64, y []float64) *chaos {
	if terms == nil {
		return nil
	}
	c := &chaos{inputs: inputs, terms: terms, centre: y[0]}
	each := len(y) / Replicates
	all := newSquares(len(terms))
	var parts [Replicates]*squares
	at := make([][]float64, len(y))
	for r := range parts {
		parts[r] = newSquares(len(terms))
		for i := r * each; i < (r+1)*each; i++ {
			for _, t := range terms {
				at[i] = append(at[i], t.value(of[i]))
			}
			parts[r].row(at[i], y[i]-c.centre)
		}
		all.add(parts[r], 1)
	}
	if !c.whole.fit(all) {
		return nil
	}
	for r, p := range parts {
		all.add(p, -1)
		if !c.without[r].fit(all) {
			return nil
		}
		all.add(p, 1)
		for i := r * each; i < (r+1)*each; i++ {
			miss := y[i] - c.centre
			for k, b := range c.without[r].by {
				miss -= b * at[i][k]
			}
			c.missed += miss * miss / float64(len(y))
		}
	}
	return c
}

// fit solves a least squares problem.
func (c *coefficients) fit(s *squares) bool {
	by, spread, left, ok := s.solve()
	if !ok {
		return false
	}
	each := left / (s.n - float64(len(by)))
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
		if out < 0 {
			return c.figures(c.whole)
		}
		return c.figures(c.without[out])
	})
	res := Result{Evaluations: len(y), Values: y}
	res.Mean, res.Variance = found[0].plus(c.centre), found[1]
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

// figures returns the mean, the variance, what the first indices leave, and then the
// first and the total index of each input, all of the polynomial itself.
func (c *chaos) figures(of coefficients) []float64 {
	out := make([]float64, 3+2*c.inputs)
	out[0] = of.by[0]
	for k, t := range c.terms[1:] {
		square := of.square[k+1]
		out[1] += square
		if !t.alone() {
			out[2] += square
		}
		for i := range c.inputs {
			if t.has(i) {
				if out[4+2*i] += square; t.alone() {
					out[3+2*i] += square
				}
			}
		}
	}
	for i := range out[2:] {
		if out[1] > 0 {
			out[2+i] /= out[1]
		} else {
			out[2+i] = 0
		}
	}
	return out
}
