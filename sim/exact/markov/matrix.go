package markov

// matrix is square, of numbers that are not negative; row i is what becomes of
// state i.
type matrix [][]float64

// zeros returns the matrix of n × n noughts.
func zeros(n int) matrix {
	m := make(matrix, n)
	for i := range m {
		m[i] = make([]float64, n)
	}
	return m
}

// sum returns the sum of a row.
func sum(row []float64) (s float64) {
	for _, x := range row {
		s += x
	}
	return s
}

// times returns the product m·o.
func (m matrix) times(o matrix) matrix {
	p := zeros(len(m))
	for i, row := range m {
		for k, x := range row {
			if x == 0 {
				continue
			}
			for j, y := range o[k] {
				p[i][j] += x * y
			}
		}
	}
	return p
}

// squared returns m·m, its rows normalised.
func (m matrix) squared() matrix {
	p := m.times(m)
	p.normalise()
	return p
}

// normalise makes every row sum to 1. What rounding takes from a row or gives
// to it would otherwise double with every squaring, and there may be 50.
func (m matrix) normalise() {
	for i := range m {
		s := sum(m[i])
		for j := range m[i] {
			m[i][j] /= s
		}
	}
}
