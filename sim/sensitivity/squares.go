package sensitivity

import "math"

// squares is the sums of a linear least squares problem, of a replicate or several.
// They are added up here, not by gonum, whose sums run in another order on each kind of
// processor: one seed is to give the same digits on all.
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
	l := make([][]float64, s.all) // the Cholesky factor
	for i := range l {
		l[i] = append([]float64(nil), s.x[i]...)
		for j := range i + 1 {
			x := l[i][j]
			for k, v := range l[j][:j] {
				x -= l[i][k] * v
			}
			if i > j {
				l[i][j] = x / l[j][j]
				continue
			}
			if !(x > 1e-10*s.x[i][i]) {
				return nil, nil, 0, false
			}
			l[i][i] = math.Sqrt(x)
		}
	}
	by = append([]float64(nil), s.xy...)
	left = s.yy
	for i := range by {
		for k, v := range l[i][:i] {
			by[i] -= v * by[k]
		}
		by[i] /= l[i][i]
		left -= by[i] * by[i]
	}
	for i := s.all - 1; i >= 0; i-- {
		by[i] /= l[i][i]
		for k, v := range l[i][:i] {
			by[k] -= v * by[i]
		}
	}
	return by, inverseDiagonal(l), math.Max(0, left), true
}

// inverseDiagonal returns the diagonal of the inverse of L·Lᵀ.
func inverseDiagonal(l [][]float64) []float64 {
	out := make([]float64, len(l))
	column := make([]float64, len(l)) // of the inverse of L
	for j := range l {
		column[j] = 1 / l[j][j]
		out[j] += column[j] * column[j]
		for i := j + 1; i < len(l); i++ {
			x := 0.0
			for k, v := range l[i][j:i] {
				x -= v * column[j+k]
			}
			column[i] = x / l[i][i]
			out[j] += column[i] * column[i]
		}
	}
	return out
}
