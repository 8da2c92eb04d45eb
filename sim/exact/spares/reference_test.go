package spares

import (
	"math"
	"math/big"

	"gonum.org/v1/gonum/mat"
	"gonum.org/v1/gonum/stat/combin"
)

// generator is the chain's matrix of rates with the diagonal that makes rows sum to 0,
// put together apart from the code under test: all combinations are states, reached or
// not, and the stage is there also where nothing is rebuilt.
func generator(c Chain) [][]float64 {
	t, k := c.Tolerance, max(1, c.Stages)
	at := func(w, r, j, s int) int { return ((w*(t+1)+r)*(c.Spares+1)+j)*k + s }
	n := at(t, t, c.Spares, k-1) + 2
	q := make([][]float64, n)
	for i := range q {
		q[i] = make([]float64, n)
	}
	for w := 0; w <= t; w++ {
		for r := 0; w+r <= t; r++ {
			for j := 0; j <= c.Spares; j++ {
				for s := range k {
					i := at(w, r, j, s)
					running := c.Drives - w - r
					rate := float64(running) * c.FailurePerHour
					if c.DegradedFactor != 0 {
						rate *= math.Pow(c.DegradedFactor, float64(w+r))
					}
					for fail := 1; fail <= running; fail++ {
						each := c.ShockPerHour * float64(combin.Binomial(running, fail)) * math.Pow(c.ShockChance, float64(fail)) * math.Pow(1-c.ShockChance, float64(running-fail))
						if fail == 1 {
							each += rate
						}
						if w+r+fail > t {
							q[i][n-1] += each
							continue
						}
						spares := min(fail, c.Spares-j)
						if c.Rebuild > 0 {
							q[i][at(w+fail-spares, r+spares, j+spares, s)] += each
						} else {
							q[i][at(w+fail-spares, r, j+spares, s)] += each
						}
					}
					if w > 0 && c.Rebuild > 0 {
						q[i][at(w-1, r+1, j, s)] += float64(w) / c.Response
					} else if w > 0 {
						q[i][at(w-1, r, j, s)] += float64(w) / c.Response
					}
					if r > 0 && c.Rebuild > 0 {
						if s == k-1 {
							q[i][at(w, r-1, j, 0)] += float64(k) / c.Rebuild
						} else {
							q[i][at(w, r, j, s+1)] += float64(k) / c.Rebuild
						}
					}
					if j > 0 {
						q[i][at(w, r, j-1, s)] += float64(j) / c.Restock
					}
				}
			}
		}
	}
	for i := range q {
		for j, x := range q[i] {
			if j != i {
				q[i][i] -= x
			}
		}
	}
	return q
}

// byGonum is the loss chance by gonum's matrix exponential, which keeps digits as
// against 1.
func byGonum(c Chain, hours float64) float64 {
	q := generator(c)
	n := len(q)
	m := mat.NewDense(n, n, nil)
	for i := range q {
		for j, r := range q[i] {
			m.Set(i, j, r*hours)
		}
	}
	var e mat.Dense
	e.Exp(m)
	return e.At(0, n-1)
}

const bits = 320

// byTaylor is the loss chance by the Taylor series of the exponential, signs and all,
// in 320 bits, from step to step: what cancels in a step of 64 events leaves over 200 of
// them.
func byTaylor(c Chain, hours float64) float64 {
	q := generator(c)
	n := len(q)
	most := 0.0
	for i := range q {
		most = math.Max(most, -q[i][i])
	}
	steps := math.Ceil(most * hours / 64)
	type entry struct {
		i, j int
		x    *big.Float
	}
	var entries []entry
	diagonal := make([]*big.Float, n)
	step := new(big.Float).SetPrec(bits).Quo(big.NewFloat(hours), big.NewFloat(steps))
	for i := range q {
		diagonal[i] = new(big.Float).SetPrec(bits)
		for j, x := range q[i] {
			if j == i || x == 0 {
				continue
			}
			b := new(big.Float).SetPrec(bits).SetFloat64(x)
			b.Mul(b, step)
			entries = append(entries, entry{i, j, b})
			diagonal[i].Sub(diagonal[i], b)
		}
	}
	for i := range q {
		entries = append(entries, entry{i, i, diagonal[i]})
	}
	vector := func() []*big.Float {
		v := make([]*big.Float, n)
		for i := range v {
			v[i] = new(big.Float).SetPrec(bits)
		}
		return v
	}
	now := vector()
	now[0].SetInt64(1)
	x := new(big.Float).SetPrec(bits)
	for range int(steps) {
		term, sum := vector(), vector()
		for i := range now {
			term[i].Set(now[i])
			sum[i].Set(now[i])
		}
		for k := int64(1); k < 450; k++ { // 128^450 ÷ 450! is below 2^-170
			next := vector()
			for _, e := range entries {
				if term[e.i].Sign() != 0 {
					next[e.j].Add(next[e.j], x.Mul(term[e.i], e.x))
				}
			}
			for i := range next {
				next[i].Quo(next[i], x.SetInt64(k))
				sum[i].Add(sum[i], next[i])
			}
			term = next
		}
		now = sum
	}
	p, _ := now[n-1].Float64()
	return p
}
