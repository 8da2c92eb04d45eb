// Package spares has the loss chance of a group of drives with hot spares, waits and
// rebuilds as a Markov chain, which the simulation is checked with.
//
// [Chain.LossBy] is right to nearly all digits of a float64, however rare the loss,
// where rebuilds are exponential, or take a number of exponential stages one after the
// other. Rebuilds of a fixed length are the limit of ever more stages:
// [Chain.LossByFixedRebuild] works it out.
package spares

import (
	"arrayodds/sim/exact/markov"

	"gonum.org/v1/gonum/stat/combin"
)

// Chain is one group of drives as a Markov chain over how many drives wait, how many are
// ready or rebuilding, how many spares are out, and at which stage the rebuild is that
// runs. The rules are those of package model: a failed drive takes a spare that is free
// and is ready at once, else it waits, also where a spare comes back meanwhile; rebuilds
// run one at a time; the drive whose failure loses the group takes nothing.
type Chain struct {
	Drives    int // in the group, above Tolerance
	Tolerance int // drives that may be down without loss, 0 or more
	Spares    int // hot spares, 0 or more

	FailurePerHour float64 // of one running drive, 0 or more
	// DegradedFactor m makes the failure rate of the others m^k times as high while
	// k drives are down. 1 is none, and so is 0.
	DegradedFactor float64

	Response float64 // mean of the exponential wait without a spare, hours; 0 for none
	Restock  float64 // mean of the exponential time for which a spare is out, hours; 0 for none
	Rebuild  float64 // mean length of a rebuild, hours; 0 where it takes no time
	Stages   int     // exponential stages, all alike, of which a rebuild is the sum; 0 is one

	// At a common-cause event, which comes ShockPerHour (0 for never), each running
	// drive fails with a chance of ShockChance (0 to 1), independent of the others.
	ShockPerHour, ShockChance float64
}

// state is one of the chain that is not lost.
type state struct {
	waiting int
	ready   int // rebuilding, or to be rebuilt
	out     int // spares
	stage   int // of the rebuild that runs, from 0
}

// LossBy returns the chance that the group, all of its drives running and all spares
// there at first, is lost within so many hours, 0 or more.
func (c Chain) LossBy(hours float64) float64 { return c.rates(anyEnd, state{}).Reached(hours) }

// LossFrom returns the chance that the group is lost within so many hours, of which at
// first so many drives wait and so many are being rebuilt or queued for it, together at
// most Tolerance, while so many spares are out. The rebuild that runs, if any, begins.
func (c Chain) LossFrom(waiting, ready, out int, hours float64) float64 {
	return c.rates(anyEnd, state{waiting: waiting, ready: ready, out: out}).Reached(hours)
}

// End is what ended a group.
type End int

// The ends.
const (
	WhileWaiting    End = iota // a failure while a failed drive waits
	WhileRebuilding            // a failure while all failed drives are being rebuilt, or queued for it
	ByCommonCause              // a common-cause event
	Ends                       // the number of ends
)

const (
	anyEnd End = -1 // as what is asked for
	goesOn End = -2 // the group is not lost
)

// LossByEnd returns the part of what [Chain.LossBy] returns that ends so: the state that
// is lost is one of two, and that of other ends is never left.
func (c Chain) LossByEnd(end End, hours float64) float64 {
	return c.rates(end, state{}).Reached(hours)
}

// rates returns the rates of the chain. States are numbered as they are found from
// that first one; the last one is the loss by that end, the one before, where not any end is
// asked for, the loss by others.
func (c Chain) rates(end End, first state) markov.Rates {
	number := map[state]int{first: 0}
	states := []state{first}
	type move struct {
		from, to int // lost or killed is the loss
		rate     float64
	}
	const lost, killed = -1, -2
	var moves []move
	for i := 0; i < len(states); i++ {
		c.leave(states[i], func(to state, by End, rate float64) {
			switch {
			case by == goesOn:
			case end == anyEnd || by == end:
				moves = append(moves, move{i, lost, rate})
				return
			default:
				moves = append(moves, move{i, killed, rate})
				return
			}
			if _, known := number[to]; !known {
				number[to] = len(states)
				states = append(states, to)
			}
			moves = append(moves, move{i, number[to], rate})
		})
	}
	n := len(states)
	if end != anyEnd {
		n++
	}
	r := markov.NewRates(n + 1)
	for _, m := range moves {
		switch m.to {
		case lost:
			m.to = n
		case killed:
			m.to = len(states)
		}
		if m.to != m.from { // as where the rebuild and the restock take no time
			r[m.from][m.to] += m.rate
		}
	}
	return r
}

// leave calls move for everything that may happen next.
func (c Chain) leave(s state, move func(to state, by End, rate float64)) {
	down := s.waiting + s.ready
	running := c.Drives - down
	degraded := 1.0
	for range down {
		if c.DegradedFactor != 0 {
			degraded *= c.DegradedFactor
		}
	}
	if c.FailurePerHour > 0 {
		by := WhileRebuilding
		if s.waiting > 0 {
			by = WhileWaiting
		}
		to, lost := c.fail(s, 1)
		if !lost {
			by = goesOn
		}
		move(to, by, float64(running)*degraded*c.FailurePerHour)
	}
	if c.ShockPerHour > 0 && c.ShockChance > 0 {
		for k := 1; k <= running; k++ {
			by := ByCommonCause
			to, lost := c.fail(s, k)
			if !lost {
				by = goesOn
			}
			move(to, by, c.ShockPerHour*chanceOf(k, running, c.ShockChance))
		}
	}
	if s.waiting > 0 {
		to := s
		to.waiting--
		if c.Rebuild > 0 {
			to.ready++
		}
		move(to, goesOn, float64(s.waiting)/c.Response)
	}
	if s.ready > 0 {
		to := s
		if to.stage++; to.stage == max(1, c.Stages) {
			to.stage = 0
			to.ready--
		}
		move(to, goesOn, float64(max(1, c.Stages))/c.Rebuild)
	}
	if s.out > 0 {
		to := s
		to.out--
		move(to, goesOn, float64(s.out)/c.Restock)
	}
}

// fail returns the state after so many drives have failed at once.
func (c Chain) fail(s state, drives int) (to state, lost bool) {
	if s.waiting+s.ready+drives > c.Tolerance {
		return s, true
	}
	for range drives {
		free := s.out < c.Spares
		if free && c.Restock > 0 {
			s.out++
		}
		switch {
		case !free && c.Response > 0:
			s.waiting++
		case c.Rebuild > 0:
			s.ready++
		}
	}
	return s, false
}

// chanceOf returns the chance that k of n fail, each with chance q.
func chanceOf(k, n int, q float64) float64 {
	p := combin.GeneralizedBinomial(float64(n), float64(k))
	for range k {
		p *= q
	}
	for range n - k {
		p *= 1 - q
	}
	return p
}

// LossByFixedRebuild returns what [Chain.LossBy] comes to as the stages of the rebuild
// become ever more, that is with rebuilds of a fixed length, and about how far off that
// may be.
//
// The moments of a sum of k equal stages are polynomials in 1/k, so the chance is smooth
// in 1/k, and Richardson's extrapolation over 2, 4, 8, 16 and 32 stages takes four terms
// of it away. The error is what the last of them changed.
func (c Chain) LossByFixedRebuild(hours float64) (chance, off float64) {
	if c.Rebuild == 0 {
		return c.LossBy(hours), 0
	}
	var row []float64
	for c.Stages = 2; c.Stages <= 32; c.Stages *= 2 {
		next := []float64{c.LossBy(hours)}
		for i, before := range row {
			power := float64(int(2) << i)
			next = append(next, next[i]+(next[i]-before)/(power-1))
		}
		row = next
	}
	last := len(row) - 1
	chance, off = row[last], row[last]-row[last-1]
	if off < 0 {
		off = -off
	}
	return chance, off
}
