// Package markov has the transient solution of Markov chains that end in one state, in
// numbers that are never negative, so that a chance of 1e-100 has as many right digits
// as one of 0.1.
//
// It is uniformisation (A. Jensen, "Markoff chains as an aid in the study of Markoff
// processes", Skandinavisk Aktuarietidskrift 36, 1953) in two ways. [Rates.Reached]
// takes the one that is less work: of small or stiff chains the matrix of a short step
// is doubled by squaring, of large ones the states' chances go step by step.
package markov

import (
	"math"

	"arrayodds/array/elementary"
)

// Rates are the rates, per hour, at which each state of a chain (row) is left for each
// other one. The last state is the end, which is never left.
type Rates [][]float64

// NewRates returns the rates of a chain with so many states, all 0.
func NewRates(states int) Rates { return Rates(zeros(states)) }

// Reached returns the chance that the chain, which begins in its first state, is in its
// last one after so many hours. It has some twelve right digits; chances below 1e-300
// come out as 0 or with fewer.
func (r Rates) Reached(hours float64) float64 {
	fastest := r.fastest()
	if !(hours > 0) || fastest == 0 {
		return 0
	}
	n := float64(len(r))
	squares := n * n * n * (float64(len(r)) + math.Max(1, math.Log2(fastest*hours)))
	steps := 2 * fastest * hours * (n + float64(r.moves()))
	if steps < squares {
		return r.bySteps(hours)
	}
	return r.bySquares(hours)
}

// From returns the same chain with that state, counted from 0, as its first one: it and
// the first change places.
func (r Rates) From(state int) Rates {
	at := func(i int) int {
		switch i {
		case 0:
			return state
		case state:
			return 0
		}
		return i
	}
	from := NewRates(len(r))
	for i := range r {
		for j := range r {
			from[i][j] = r[at(i)][at(j)]
		}
	}
	return from
}

// fastest returns the greatest rate at which any state is left.
func (r Rates) fastest() float64 {
	most := 0.0
	for _, row := range r {
		most = max(most, sum(row))
	}
	return most
}

// moves returns how many rates are not 0.
func (r Rates) moves() (n int) {
	for _, row := range r {
		for _, x := range row {
			if x > 0 {
				n++
			}
		}
	}
	return n
}

// bySquares is the solution by a step that is short against every rate, doubled by
// squaring. What it takes grows with the logarithm of rate × hours.
func (r Rates) bySquares(hours float64) float64 {
	fastest := r.fastest()
	doublings, step := 0, hours
	for fastest*step > 0.5 {
		step /= 2
		doublings++
	}
	p := r.overStep(fastest, step)
	for range doublings {
		p = p.squared()
	}
	return p[0][len(p)-1]
}

// overStep returns what becomes of each state over a step with fastest × step at most
// 1/2. Uniformised at twice the fastest rate Λ, the chain stays where it is with a
// chance of 1/2 or more at each event, and events are Poisson.
func (r Rates) overStep(fastest, step float64) matrix {
	n := len(r)
	rate := 2 * fastest
	jump := zeros(n)
	for i, row := range r {
		stay := 1.0
		for j, x := range row {
			jump[i][j] = x / rate
			stay -= x / rate
		}
		jump[i][i] += stay
	}
	// The sum over k of Poisson(k) × jump^k. The end is reached after as many events
	// as there are states, or fewer, and what is left out after as many again and 30
	// more is below 1e-16 of every entry.
	total, power := zeros(n), zeros(n)
	for i := range power {
		power[i][i] = 1
	}
	weight := elementary.Exp(-rate * step)
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
		if weight == 0 {
			break
		}
		power = power.times(jump)
	}
	total.normalise()
	return total
}
