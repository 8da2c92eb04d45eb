package answer

import (
	"fmt"
	"math"
	"slices"

	"arrayodds/array/label"
	"arrayodds/sim/figure"
	"arrayodds/sim/model"
	"arrayodds/sim/study"
)

// parities says for each step of redundancy on the same drives what it costs and what it
// takes off, and whether the order holds over the doubt.
func (a answers) parities() (all []string) {
	var drives []string
	for _, o := range a.Outcomes {
		if !slices.Contains(drives, o.Choice.Drive.Label) {
			drives = append(drives, o.Choice.Drive.Label)
		}
	}
	for _, d := range drives {
		levels := map[int][]int{} // places by tolerance
		for i, o := range a.Outcomes {
			if o.Choice.Drive.Label == d && o.Simulated() {
				t := o.Sizing.Shape.Tolerance
				levels[t] = append(levels[t], i)
			}
		}
		var steps []int
		for t := range levels {
			steps = append(steps, t)
		}
		slices.Sort(steps)
		for k := 1; k < len(steps); k++ {
			from, to := a.nearest(levels[steps[k-1]], levels[steps[k]])
			all = append(all, a.parity(from, to, d))
		}
	}
	return all
}

// nearest returns the two places, one of each list, whose usable capacities are nearest;
// those that meet the demand before others.
func (a answers) nearest(from, to []int) (x, y int) {
	best := math.Inf(1)
	for _, i := range from {
		for _, j := range to {
			p, q := a.Outcomes[i].Sizing, a.Outcomes[j].Sizing
			apart := math.Abs(math.Log(p.Usable / q.Usable))
			if !p.Meets || !q.Meets {
				apart += 100
			}
			if apart < best {
				best, x, y = apart, i, j
			}
		}
	}
	return x, y
}

// worth asks whether a step of redundancy is worth it. A mirror has no parity that could
// have a second beside it.
func worth(from, to study.Outcome) string {
	mirrors := from.Choice.Layout.Level.Mirrors() || to.Choice.Layout.Level.Mirrors()
	switch t := to.Sizing.Shape.Tolerance; {
	case t == 1 && mirrors:
		return "Is a mirror worth it"
	case t == 1:
		return "Is one parity worth it"
	case t == 2 && !mirrors:
		return "Is a second parity worth it"
	case t == 3 && !mirrors:
		return "Is a third parity worth it"
	default:
		return fmt.Sprintf("Is surviving %s worth it", figure.Count(t, "failure", "failures"))
	}
}

func (a answers) parity(from, to int, drive string) string {
	x, y := a.Outcomes[from], a.Outcomes[to]
	text := fmt.Sprintf("%s on %s drives? %s in place of %s is %s", worth(x, y), label.Short(drive), a.name(to), a.name(from), a.more(from, to))
	if by := 100 * (a.cost(to)/a.cost(from) - 1); a.priced() && math.Abs(by) >= 0.5 && !math.IsInf(by, 0) {
		text += fmt.Sprintf(" (%+.0f %%)", by)
	}
	text += fmt.Sprintf(". Of %s sites like this %s lose footage in %s, in place of %s", figure.Whole(Class), withoutClass(InClass(Risk(y))), a.life(), withoutClass(InClass(Risk(x))))
	by := ratio(Risk(x), Risk(y))
	switch {
	case !(by > 0) || math.IsInf(by, 0):
	case by >= 1.05:
		text += fmt.Sprintf(": %s times fewer", Times(by))
	case by <= 1/1.05:
		text += fmt.Sprintf(": %s times more", Times(1/by))
	default:
		text += ": about the same"
	}
	text += "." + a.orderHolds(to, from)
	if !x.Sizing.Meets || !y.Sizing.Meets {
		text += " (Not both of them hold the footage.)"
	}
	if s := share(y, model.CommonCause); s > 0.5 {
		text += fmt.Sprintf(" Of what is left, %s comes with common-cause events, which no further parity touches.", Percent(s))
	}
	return text
}

// orderHolds says in how many of the settings one choice is safer than another; empty
// where that was not worked out.
func (a answers) orderHolds(i, than int) string {
	if a.Doubt == nil || a.Doubt.Safer == nil || math.IsNaN(a.Doubt.Safer[i][than]) {
		return ""
	}
	switch s := a.Doubt.Safer[i][than]; {
	case s == 1:
		return " It is the safer one in every setting that was tried."
	case s == 0:
		return " It is the riskier one in every setting that was tried."
	default:
		return fmt.Sprintf(" It is the safer one in %s of the settings that were tried.", Percent(s))
	}
}

// beaten says which choices that hold the footage are beaten, by which, and why.
func (a answers) beaten() (all []string) {
	cost := a.rank()
	for _, i := range a.order() {
		x := a.Outcomes[i]
		if !x.Sizing.Meets || !x.Simulated() {
			continue
		}
		by := -1
		for j, y := range a.Outcomes {
			if j == i || !y.Sizing.Meets || !y.Simulated() || cost(j) > cost(i) || !(Risk(y).Value < Risk(x).Value*0.98) {
				continue
			}
			if by < 0 || Risk(y).Value < Risk(a.Outcomes[by]).Value {
				by = j
			}
		}
		if by < 0 {
			continue
		}
		y := a.Outcomes[by]
		price := a.more(by, i)
		if cost(i) > cost(by) {
			price = "costs " + price
		} else {
			price = "costs no less"
		}
		text := fmt.Sprintf("%s is beaten by %s: it %s and loses footage %s", a.name(i), a.name(by), price, moreOften(ratio(Risk(x), Risk(y))))
		if why := why(x, y); why != "" {
			text += ", as " + why
		}
		text += "."
		if a.Doubt != nil && a.Doubt.Safer != nil && !math.IsNaN(a.Doubt.Safer[by][i]) {
			if s := a.Doubt.Safer[by][i]; s < 1 {
				text += fmt.Sprintf(" (In %s of the settings that were tried.)", Percent(s))
			}
		}
		all = append(all, text)
	}
	return all
}

// why says what makes a choice lose footage more often than another, by its shape; empty
// where that does not tell.
func why(x, y study.Outcome) string {
	p, q := x.Sizing.Shape, y.Sizing.Shape
	switch {
	case p.Tolerance < q.Tolerance:
		return fmt.Sprintf("a group of it survives %s and one of the other %d", figure.Count(p.Tolerance, "failure", "failures"), q.Tolerance)
	case p.Groups() > q.Groups():
		return fmt.Sprintf("it has %d groups that can be lost and the other %d", p.Groups(), q.Groups())
	case p.DrivesInGroup > q.DrivesInGroup:
		return fmt.Sprintf("it has %d drives in a group that can fail and the other %d", p.DrivesInGroup, q.DrivesInGroup)
	case y.Choice.HotSpares > x.Choice.HotSpares:
		return "the other has a hot spare more"
	case x.Choice.Drive.Label != y.Choice.Drive.Label:
		return "its drives are others"
	}
	return ""
}

// share returns the share of a choice's loss chance that a cause makes; 0 where it is not
// known.
func share(o study.Outcome, c model.Cause) float64 {
	for _, s := range o.Result.LossShares {
		if s.Cause == c {
			return s.Value
		}
	}
	return 0
}

// moreOften says how much more often a choice loses footage than another.
func moreOften(by float64) string {
	if math.IsInf(by, 0) {
		return "where the other loses none in any life that was simulated"
	}
	return Times(by) + " times as often"
}
