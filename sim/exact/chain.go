package exact

import (
	"math"

	"gonum.org/v1/gonum/stat/combin"
)

// Chain is a group of drives as a Markov chain. Its states are 0 to Tolerance
// drives down, and lost, which it never leaves.
type Chain struct {
	Drives    int // in the group, above Tolerance
	Tolerance int // drives that may be down without loss, 0 or more

	FailurePerHour float64 // of one running drive, 0 or more
	RestorePerHour float64 // of a drive that is down, 0 (never) or more

	// Parallel restores every drive that is down at its own rate; otherwise
	// one at a time is restored.
	Parallel bool

	// DegradedFactor m makes the failure rate of the others m^k times as high
	// while k drives are down. 1 is none, and so is 0.
	DegradedFactor float64

	// At a common-cause event, which comes ShockPerHour (0 for never), each
	// running drive fails with a chance of ShockChance (0 to 1), independent of
	// the others.
	ShockPerHour, ShockChance float64
}

// LossBy returns the chance that the group, all of its drives running at first, is
// lost within so many hours, 0 or more.
//
// Only positive numbers are added and multiplied on the way, so the chance has
// some twelve right digits whether it is 0.1 or 1e-100: uniformisation (A.
// Jensen, "Markoff chains as an aid in the study of Markoff processes",
// Skandinavisk Aktuarietidskrift 36, 1953) over a step that is short against
// every rate, then the step doubled by squaring. The time it takes grows with
// the logarithm of rate × hours. Chances below 1e-300 come out as 0 or with
// fewer digits.
func (c Chain) LossBy(hours float64) float64 {
	if !(hours > 0) {
		return 0
	}
	leave := c.rates()
	fastest := 0.0
	for _, row := range leave {
		fastest = max(fastest, sum(row))
	}
	if fastest == 0 {
		return 0
	}
	doublings := 0
	step := hours
	for fastest*step > 0.5 {
		step /= 2
		doublings++
	}
	p := overStep(leave, fastest, step)
	for range doublings {
		p = p.squared()
	}
	return p[0][len(p)-1]
}

// matrix is square, of numbers that are not negative; row i is what becomes of
// state i. The last state is the loss.
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

// rates returns the rate, per hour, at which each state is left for each other one.
func (c Chain) rates() matrix {
	lost := c.Tolerance + 1
	r := zeros(lost + 1)
	for down := range lost {
		running := c.Drives - down
		r[down][down+1] += float64(running) * c.FailurePerHour * degraded(c.DegradedFactor, down)
		if down > 0 {
			restores := 1.0
			if c.Parallel {
				restores = float64(down)
			}
			r[down][down-1] += restores * c.RestorePerHour
		}
		if c.ShockPerHour > 0 && c.ShockChance > 0 {
			for fail := 1; fail <= running; fail++ {
				to := min(down+fail, lost)
				r[down][to] += c.ShockPerHour * binomial(running, fail, c.ShockChance)
			}
		}
	}
	return r
}

// binomial returns the chance that k of n fail, each with chance q in (0, 1]. It is
// not the one of package branch, which this chain checks.
func binomial(n, k int, q float64) float64 {
	log := float64(k) * math.Log(q)
	if k < n {
		log += float64(n-k)*math.Log1p(-q) + combin.LogGeneralizedBinomial(float64(n), float64(k))
	}
	return math.Exp(log)
}

// overStep returns what becomes of each state over a step with fastest × step at most
// 1/2. Uniformised at twice the fastest rate Λ, the chain stays where it is with a
// chance of 1/2 or more at each event, and events are Poisson.
func overStep(leave matrix, fastest, step float64) matrix {
	n := len(leave)
	rate := 2 * fastest
	jump := zeros(n)
	for i, row := range leave {
		stay := 1.0
		for j, r := range row {
			jump[i][j] = r / rate
			stay -= r / rate
		}
		jump[i][i] += stay
	}
	// The sum over k of Poisson(k) × jump^k. The loss of a group with tolerance
	// t begins at k = t + 1, and what is left out after as many terms again and
	// 30 more is below 1e-16 of every entry.
	total, power := zeros(n), zeros(n)
	for i := range power {
		power[i][i] = 1
	}
	weight := math.Exp(-rate * step)
	for k := 1; ; k++ {
		for i := range total {
			for j := range total[i] {
				total[i][j] += weight * power[i][j]
			}
		}
		if k > 2*n+30 {
			break
		}
		weight *= rate * step / float64(k)
		power = power.times(jump)
	}
	total.normalise()
	return total
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
