package answer

import (
	"fmt"
	"slices"
	"strings"
)

// Assumed is an input that moves the chance of a choice, as a sentence for somebody who
// has not seen the file needs it.
type Assumed struct {
	Called string // "yearly failure rate of the 12 TB drives"
	Range  string // "0.5 % to 4 %, most likely 1 %"
	Moves  string // "at the high end losses are 8 times as likely as at the low end"
	Ground string // where the range comes from, and whether it is a guess
}

// leastMoved is how many times an input changes a chance at least to be told of.
const leastMoved = 1.2

// assumed returns what moves the chance of a choice, the most first.
func (a answers) assumed(i int) (all []Assumed) {
	for _, m := range a.Outcomes[i].Doubt.Moves {
		if m.Strength() < leastMoved {
			continue
		}
		in := a.Doubt.Inputs[m.Input]
		said := Assumed{Called: in.Called, Range: fmt.Sprintf("%s to %s, most likely %s", in.Low, in.High, in.Likely)}
		low, isLow := strings.CutPrefix(in.Low, "×")
		high, isHigh := strings.CutPrefix(in.High, "×")
		if isLow && isHigh { // of a law, which has no single figure
			said.Range = fmt.Sprintf("%s; from %s to %s times that", in.Likely, low, high)
		}
		ends := [2]string{"high", "low"}
		if m.Factor < 1 {
			ends = [2]string{"low", "high"}
		}
		said.Moves = fmt.Sprintf("at the %s end losses are %s times as likely as at the %s end", ends[0], Times(m.Strength()), ends[1])
		said.Ground = "range given for this site"
		if !in.Given {
			said.Ground = "range not given, taken as " + in.Range
		}
		all = append(all, said)
	}
	return all
}

// leftOutOf says what the hazards that are left out and would turn the answer would do to
// a choice.
func (a answers) leftOutOf(i int) (all []string) {
	if a.Doubt == nil {
		return nil
	}
	for _, l := range a.Doubt.LeftOut {
		if !l.Matters {
			continue
		}
		switch f := l.Factor[i]; {
		case f.Value >= 1.1:
			all = append(all, fmt.Sprintf("with %s it would lose footage %s times as often", l.Says, Times(f.Value)))
		case f.Value > 0 && f.Value <= 1/1.1:
			all = append(all, fmt.Sprintf("with %s it would lose footage %s times less often", l.Says, Times(1/f.Value)))
		case f.Known():
			all = append(all, l.Says+" would not touch it, but turn the order of others")
		case l.Chance[i].Value > 0:
			all = append(all, fmt.Sprintf("with %s it could lose footage at all: %s", l.Says, Odds(l.Chance[i])))
		}
	}
	return all
}

// compared returns the places of the choices that the advice sets side by side, two at
// most: what is recommended or, where nothing is, the safest, and what is cheaper than it or, where
// nothing is, the cheapest that is safer.
func (a answers) compared(recommended int, order []int) []int {
	fit := a.fitting(order)
	if len(fit) == 0 {
		return nil
	}
	cost := a.rank()
	if recommended < 0 {
		safest, cheapest := fit[0], fit[0]
		for _, i := range fit {
			if cost(i) < cost(cheapest) {
				cheapest = i
			}
		}
		return slices.Compact([]int{safest, cheapest})
	}
	for _, other := range []int{a.nextCheaper(recommended, fit, cost), a.cheapestSafer(recommended, fit, cost)} {
		if other >= 0 {
			return []int{recommended, other}
		}
	}
	return []int{recommended}
}

// fitting returns the places of the choices that hold the footage and were simulated,
// safest first.
func (a answers) fitting(order []int) (fit []int) {
	for _, i := range order {
		if o := a.Outcomes[i]; o.Sizing.Meets && o.Simulated() {
			fit = append(fit, i)
		}
	}
	return fit
}
