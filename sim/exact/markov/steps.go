package markov

import (
	"math"

	"arrayodds/array/elementary"
)

// move is a way from one state to another.
type move struct {
	from, to int
	chance   float64 // at an event
}

// eventsAStep is the mean number of events in a step of bySteps: few enough for
// exp(−eventsAStep) to be an ordinary number.
const eventsAStep = 64

// bySteps is the solution by the chances of the states alone, from step to step.
func (r Rates) bySteps(hours float64) float64 {
	rate := 1.25 * r.fastest()
	n := len(r)
	var moves []move
	stay := make([]float64, n)
	for i, row := range r {
		stay[i] = 1 - sum(row)/rate
		for j, x := range row {
			if x > 0 {
				moves = append(moves, move{i, j, x / rate})
			}
		}
	}
	steps := math.Ceil(rate * hours / eventsAStep)
	mean := rate * hours / steps
	// Events beyond that many have a chance of less than 1e-30.
	most := int(mean + 12*math.Sqrt(mean) + 60)
	now := make([]float64, n)
	now[0] = 1
	power, next, total := make([]float64, n), make([]float64, n), make([]float64, n)
	for range int(steps) {
		copy(power, now)
		clear(total)
		weight := elementary.Exp(-mean)
		for k := 1; ; k++ {
			for i, x := range power {
				total[i] += weight * x
			}
			if k > most {
				break
			}
			weight *= mean / float64(k)
			for i, x := range power {
				next[i] = stay[i] * x
			}
			for _, m := range moves {
				next[m.to] += m.chance * power[m.from]
			}
			power, next = next, power
		}
		// What rounding takes or gives is a matter of all states alike.
		whole := sum(total)
		for i := range now {
			now[i] = total[i] / whole
		}
	}
	return now[n-1]
}
