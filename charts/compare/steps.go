package compare

import (
	"math"
	"sort"

	"arrayodds/sim/study"
)

// frontier returns the choices worth paying more for, cheapest first: the cheapest
// that meets the demand, then each that costs more and whose loss chance is
// lower beyond doubt, its interval lying wholly below that of the one before.
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
		return x.Result.LossChance.Value < y.Result.LossChance.Value
	})
	var steps []int
	for _, i := range order {
		if len(steps) > 0 {
			before := r.Outcomes[steps[len(steps)-1]]
			if r.Outcomes[i].Result.LossChance.High >= before.Result.LossChance.Low {
				continue
			}
		}
		steps = append(steps, i)
	}
	return steps
}

// costOf returns what steps are counted in: money, or without prices drives.
func (r report) costOf() func(study.Outcome) float64 {
	if r.hasPrices() {
		return func(o study.Outcome) float64 { return o.Sizing.Purchase }
	}
	return func(o study.Outcome) float64 { return float64(o.Bought()) }
}
