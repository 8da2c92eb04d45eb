package sensitivity

import "arrayodds/sim/stream"

// design returns the rows of one replicate: n of A, n of B, and for each of the k
// inputs n of B with that input taken from A.
func design(rnd *stream.Stream, k, n int) [][]float64 {
	a, b := hypercube(rnd, k, n), hypercube(rnd, k, n)
	rows := append(append(make([][]float64, 0, n*(k+2)), a...), b...)
	for input := range k {
		for i := range n {
			row := append([]float64(nil), b[i]...)
			row[input] = a[i][input]
			rows = append(rows, row)
		}
	}
	return rows
}

// hypercube returns n points in k dimensions of which each n-th of every axis holds
// one, anywhere within it.
func hypercube(rnd *stream.Stream, k, n int) [][]float64 {
	points := make([][]float64, n)
	for i := range points {
		points[i] = make([]float64, k)
	}
	cell := make([]int, n)
	for d := range k {
		for i := range cell {
			cell[i] = i
		}
		for i := n - 1; i > 0; i-- {
			j := rnd.Intn(i + 1)
			cell[i], cell[j] = cell[j], cell[i]
		}
		for i, c := range cell {
			points[i][d] = (float64(c) + rnd.Float64()) / float64(n)
		}
	}
	return points
}
