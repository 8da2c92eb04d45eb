package exact

import (
	"math"
	"math/big"
	"testing"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/combin"
)

// generator is the chain's matrix of rates with the diagonal that makes rows
// sum to 0, put together apart from the code under test.
func generator(c Chain) [][]float64 {
	n := c.Tolerance + 2
	q := make([][]float64, n)
	for i := range q {
		q[i] = make([]float64, n)
	}
	for k := range n - 1 {
		m := 1.0
		for range k {
			m *= c.DegradedFactor
		}
		q[k][k+1] += float64(c.Drives-k) * m * c.FailurePerHour
		if k > 0 && c.Parallel {
			q[k][k-1] += float64(k) * c.RestorePerHour
		} else if k > 0 {
			q[k][k-1] += c.RestorePerHour
		}
		for j := 1; j <= c.Drives-k; j++ {
			ways := float64(combin.Binomial(c.Drives-k, j))
			q[k][min(k+j, n-1)] += c.ShockPerHour * ways * math.Pow(c.ShockChance, float64(j)) * math.Pow(1-c.ShockChance, float64(c.Drives-k-j))
		}
	}
	return q
}

// byGonum is the loss chance by gonum's matrix exponential, which keeps digits
// as against 1.
func byGonum(c Chain, hours float64) float64 {
	q := generator(c)
	n := len(q)
	m := mat.NewDense(n, n, nil)
	for i := range q {
		sum := 0.0
		for j, r := range q[i] {
			sum += r
			m.Set(i, j, r*hours)
		}
		m.Set(i, i, -sum*hours)
	}
	var e mat.Dense
	e.Exp(m)
	return e.At(0, n-1)
}

const bits = 700

type bigMatrix [][]*big.Float

func bigZeros(n int) bigMatrix {
	m := make(bigMatrix, n)
	for i := range m {
		m[i] = make([]*big.Float, n)
		for j := range m[i] {
			m[i][j] = new(big.Float).SetPrec(bits)
		}
	}
	return m
}

func (m bigMatrix) times(o bigMatrix) bigMatrix {
	p := bigZeros(len(m))
	x := new(big.Float).SetPrec(bits)
	for i := range m {
		for j := range m {
			for k := range m {
				p[i][j].Add(p[i][j], x.Mul(m[i][k], o[k][j]))
			}
		}
	}
	return p
}

// byTaylor is the loss chance by the Taylor series of the exponential, signs and
// all, and repeated squaring, in 700 bits: what cancels leaves enough of them.
func byTaylor(t *testing.T, c Chain, hours float64) float64 {
	t.Helper()
	q := generator(c)
	n := len(q)
	a := bigZeros(n)
	most := 0.0
	for i := range q {
		for j, r := range q[i] {
			a[i][j].SetFloat64(r)
			a[i][j].Mul(a[i][j], big.NewFloat(hours))
		}
		for j := range q[i] {
			if j != i {
				a[i][i].Sub(a[i][i], a[i][j])
			}
		}
		d, _ := a[i][i].Float64()
		most = max(most, -d)
	}
	_, squarings := math.Frexp(most)
	squarings = max(0, squarings+4) // a norm below 1/8
	for i := range a {
		for j := range a {
			a[i][j].SetMantExp(a[i][j], -squarings)
		}
	}
	e, term := bigZeros(n), bigZeros(n)
	for i := range e {
		e[i][i].SetInt64(1)
		term[i][i].SetInt64(1)
	}
	for k := int64(1); k < 110; k++ { // (1/4)^110 ÷ 110! is below 2^-700
		term = term.times(a)
		for i := range e {
			for j := range e {
				term[i][j].Quo(term[i][j], new(big.Float).SetPrec(bits).SetInt64(k))
				e[i][j].Add(e[i][j], term[i][j])
			}
		}
	}
	for range squarings {
		e = e.times(e)
	}
	p, _ := e[0][n-1].Float64()
	return p
}
