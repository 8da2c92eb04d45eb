// Package worth says what states are worth, roughly: the chance that a loss comes of one
// before all is whole again. It steers what forced branching follows, and a wrong one
// costs time or accuracy, never truth.
//
// It is that of a small Markov chain of one group with the site's mean rates, over the
// drives down in the group, those of them that wait, and the hot spares that are out. A
// length that is not exponential has the rate of the exponential one that has its
// moment of the order that counts.
package worth

import "math"

// States are the states of a chain with their worth. Make it with [New].
type States struct {
	tolerance, spares int
	skipped           int // spares beyond those that the chain has: they are out first
	of                []float64
}

// MaxSpares is the number of spares that the chain tells apart.
const MaxSpares = 16

// Rates are those of the chain, per hour, with its numbers of drives.
type Rates struct {
	Failure  float64   // of one drive
	Degraded []float64 // multiplies it, by drives down in the group
	Drives   int       // in a group
	Groups   int
	Wait     float64 // of a drive without a spare, to its end
	Rebuild  float64
	Parallel bool // rebuilds run side by side
	Restock  float64
}

// New solves the chain by Gauss and Seidel's method: all terms are positive, and
// what little a sweep leaves does not matter.
func New(tolerance, spares int, r *Rates) *States {
	w := &States{tolerance: tolerance, spares: min(spares, MaxSpares), skipped: max(0, spares-MaxSpares)}
	w.of = make([]float64, (w.spares+1)*(tolerance+1)*(tolerance+1))
	for range 4*(tolerance+w.spares) + 8 {
		for down := tolerance; down >= 0; down-- {
			for out := w.spares; out >= 0; out-- {
				for waiting := down; waiting >= 0; waiting-- {
					if down+out > 0 {
						w.of[w.index(down, waiting, out)] = w.next(down, waiting, out, r)
					}
				}
			}
		}
	}
	return w
}

// index returns where a state stands.
func (w *States) index(down, waiting, out int) int {
	return (out*(w.tolerance+1)+down)*(w.tolerance+1) + waiting
}

// At returns the worth of a state.
func (w *States) At(down, waiting, out int) float64 {
	return w.of[w.index(down, waiting, max(0, out-w.skipped))]
}

// next returns the worth of a state from that of those that follow it.
func (w *States) next(down, waiting, out int, r *Rates) float64 {
	rate, sum := 0.0, 0.0
	to := func(by, worth float64) {
		rate += by
		sum += by * worth
	}
	state := func(down, waiting, out int) float64 { return w.of[w.index(down, waiting, out)] }
	groups := 1
	if down == 0 {
		groups = r.Groups
	}
	fails := r.Failure * r.Degraded[down] * float64(groups*(r.Drives-down))
	switch {
	case down == w.tolerance:
		to(fails, 1)
	case out < w.spares:
		to(fails, state(down+1, waiting, out+1))
	default:
		to(fails, state(down+1, waiting+1, out))
	}
	if down > 0 && out < w.spares {
		to(r.Failure*float64((r.Groups-1)*r.Drives), state(down, waiting, out+1))
	}
	if ready := down - waiting; ready > 0 {
		if !r.Parallel {
			ready = 1
		}
		to(float64(ready)*r.Rebuild, state(down-1, waiting, out))
	}
	if waiting > 0 {
		to(float64(waiting)*r.Wait, state(down, waiting-1, out))
	}
	if out > 0 {
		to(float64(out)*r.Restock, state(down, waiting, out-1))
	}
	if rate == 0 || math.IsInf(rate, 1) {
		return 0
	}
	return sum / rate
}
