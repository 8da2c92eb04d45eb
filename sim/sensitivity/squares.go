package sensitivity

import (
	"math"

	"arrayodds/sim/cholesky"
)

// squares is the sums of a linear least squares problem, of a replicate or several.
// They are added up here, not by gonum, as package cholesky says.
type squares struct {
	n   float64     // rows
	x   [][]float64 // lower triangle: sums of the products of two columns
	xy  []float64   // sums of the products of a column and the figure
	yy  float64     // sum of the squares of the figure
	all int         // columns
}

// newSquares returns sums of nothing.
func newSquares(columns int) *squares {
	s := &squares{all: columns, xy: make([]float64, columns)}
	for i := range columns {
		s.x = append(s.x, make([]float64, i+1))
	}
	return s
}

// row adds a row.
func (s *squares) row(x []float64, y float64) {
	s.n++
	s.yy += y * y
	for i, a := range x {
		s.xy[i] += a * y
		to := s.x[i]
		for j, b := range x[:i+1] {
			to[j] += a * b
		}
	}
}

// add adds other sums, so many times.
func (s *squares) add(o *squares, times float64) {
	s.n += times * o.n
	s.yy += times * o.yy
	for i := range s.xy {
		s.xy[i] += times * o.xy[i]
		to := s.x[i]
		for j, v := range o.x[i] {
			to[j] += times * v
		}
	}
}

// solve returns the coefficients, what of each one's square comes of a residual of
// variance 1, and the sum of the squares of the residuals; false where the columns say
// the same, or nearly.
func (s *squares) solve() (by, spread []float64, left float64, ok bool) {
	var l cholesky.Factor
	for _, products := range s.x {
		if !l.Extend(products, 1e-10) {
			return nil, nil, 0, false
		}
	}
	by = l.SolveLower(append([]float64(nil), s.xy...))
	left = s.yy
	for _, z := range by {
		left -= z * z
	}
	return l.SolveUpper(by), l.InverseDiagonal(), math.Max(0, left), true
}
