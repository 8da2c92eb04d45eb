// Package cholesky has the Cholesky factor of a matrix of sums of squares and products,
// made column by column, so that a column that says what others say can be left out.
//
// Sums run in one order whatever the processor, so that one seed gives the same digits on
// all; gonum's run in another on each kind.
package cholesky

import "math"

// Factor is the lower triangle L of a matrix L·Lᵀ, row by row. The zero Factor has no
// column yet.
type Factor [][]float64

// Extend adds a column of which these are the products with the columns that the factor
// has, in their order, and then with itself. Where those leave no more than a share
// tolerance of the last, the column says nothing of its own: then it is not added, and
// Extend returns false.
func (l *Factor) Extend(products []float64, tolerance float64) bool {
	i := len(*l)
	row := append([]float64(nil), products[:i+1]...)
	for j := range row {
		for k := range j {
			other := row
			if j < i {
				other = (*l)[j]
			}
			row[j] -= row[k] * other[k]
		}
		if j < i {
			row[j] /= (*l)[j][j]
		}
	}
	if !(row[i] > tolerance*products[i]) {
		return false
	}
	row[i] = math.Sqrt(row[i])
	*l = append(*l, row)
	return true
}

// SolveLower returns L⁻¹·x, in the place of x.
func (l Factor) SolveLower(x []float64) []float64 {
	for i := range x {
		for k, v := range l[i][:i] {
			x[i] -= v * x[k]
		}
		x[i] /= l[i][i]
	}
	return x
}

// SolveUpper returns (Lᵀ)⁻¹·x, in the place of x.
func (l Factor) SolveUpper(x []float64) []float64 {
	for i := len(x) - 1; i >= 0; i-- {
		x[i] /= l[i][i]
		for k, v := range l[i][:i] {
			x[k] -= v * x[i]
		}
	}
	return x
}

// InverseDiagonal returns the diagonal of the inverse of L·Lᵀ.
func (l Factor) InverseDiagonal() []float64 {
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
