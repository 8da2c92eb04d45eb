package compare

import (
	"math"
	"sort"

	"arrayodds/sim/answer"
	"arrayodds/sim/study"
)

// frontier returns the choices worth paying more for, cheapest first: the cheapest
// that meets the demand, then each that costs more and loses footage less often than the
// one before.
// cost may be NaN, which leaves the choice out. It returns places in Outcomes.
func (r report) frontier(cost func(study.Outcome) float64) []int {
	var order []int
	for i, o := range r.Outcomes {
		if o.Sizing.Meets && o.Simulated() && !math.IsNaN(cost(o)) {
			order = append(order, i)
		}
	}
	sort.SliceStable(order, func(a, b int) bool {
		x, y := r.Outcomes[order[a]], r.Outcomes[order[b]]
		if cost(x) != cost(y) {
			return cost(x) < cost(y)
		}
		return answer.Risk(x).Value < answer.Risk(y).Value
	})
	var steps []int
	for _, i := range order {
		if len(steps) > 0 {
			before := r.Outcomes[steps[len(steps)-1]]
			if answer.Risk(r.Outcomes[i]).Value >= answer.Risk(before).Value {
				continue
			}
		}
		steps = append(steps, i)
	}
	return steps
}
