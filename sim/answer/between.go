package answer

import (
	"fmt"
	"math"

	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// Difference is what sets two choices apart. Places are those of the Outcomes.
type Difference struct {
	Safer int     // place of the safer one over the doubt; −1: neither, or it is not known
	Times float64 // the loss chance of the other ÷ that of the safer one, 1 or more; NaN: not known
	Share float64 // of the settings in which the safer one is so; NaN: not worked out
	Cost  float64 // of the second less that of the first over the service life; NaN without prices
	Says  []string
}

// notApart is how many times one chance is another at the most where the two are called
// about the same.
const notApart = 1.05

// Between says what sets two choices of a comparison apart: which is safer, how many
// times and in what share of the settings, at what cost, and what that makes of the goal.
func Between(c study.Comparison, first, second int) Difference {
	a := answers{c}
	d := Difference{Safer: -1, Times: math.NaN(), Share: math.NaN(), Cost: math.NaN()}
	d.Says = append(d.Says, a.apart(&d, first, second))
	if d.Safer >= 0 {
		other := first + second - d.Safer
		if why := why(a.Outcomes[other], a.Outcomes[d.Safer]); why != "" {
			d.Says = append(d.Says, fmt.Sprintf("%s loses footage more often, as %s.", a.name(other), why))
		}
	}
	if a.hasCameras() && a.Outcomes[first].Simulated() && a.Outcomes[second].Simulated() {
		d.Says = append(d.Says, fmt.Sprintf("A clip that is asked for is missing with a chance of %s with %s and of %s with %s.",
			Odds(MissingRisk(a.Outcomes[first])), a.name(first), Odds(MissingRisk(a.Outcomes[second])), a.name(second)))
	}
	d.Says = append(d.Says, a.dearer(&d, first, second))
	for _, i := range []int{first, second} {
		if !a.Outcomes[i].Sizing.Meets {
			d.Says = append(d.Says, a.name(i)+" does not hold the footage for as long as is asked.")
		}
	}
	for _, i := range []int{first, second} {
		if a.Site.Goal != nil && a.Outcomes[i].Simulated() {
			d.Says = append(d.Says, a.name(i)+": "+a.goal(i))
		}
	}
	return d
}

// apart says which of two choices is safer.
func (a answers) apart(d *Difference, first, second int) string {
	for _, i := range []int{first, second} {
		if !a.Outcomes[i].Simulated() {
			return a.name(i) + " is too busy to be simulated, so that nothing can be said of which is safer."
		}
	}
	safer, other := first, second
	if Risk(a.Outcomes[second]).Value < Risk(a.Outcomes[first]).Value {
		safer, other = second, first
	}
	x, y := Risk(a.Outcomes[other]), Risk(a.Outcomes[safer])
	counts := fmt.Sprintf("of %s sites like this %s lose footage in %s with it, and %s with %s",
		figure.Whole(Class), withoutClass(InClass(y)), a.life(), withoutClass(InClass(x)), a.name(other))
	by := ratio(x, y)
	switch {
	case x.Value == 0:
		return fmt.Sprintf("With neither was footage lost in any life that was simulated: %s with %s, %s with %s.", Odds(Risk(a.Outcomes[first])), a.name(first), Odds(Risk(a.Outcomes[second])), a.name(second))
	case by < notApart:
		d.Times = by
		return fmt.Sprintf("%s and %s are about as safe: %s.%s", a.name(safer), a.name(other), counts, a.orderHolds(safer, other))
	}
	d.Safer, d.Times = safer, by
	if a.Doubt != nil && a.Doubt.Safer != nil {
		d.Share = a.Doubt.Safer[safer][other]
	}
	times := Times(by) + " times fewer"
	if math.IsInf(by, 0) {
		times = "none that was seen"
	}
	return fmt.Sprintf("%s is the safer: %s: %s (%s and %s, %s).%s", a.name(safer), counts, times, Odds(y), Odds(x), a.over("over all that is uncertain"), a.orderHolds(safer, other))
}

// dearer says which of two choices costs more.
func (a answers) dearer(d *Difference, first, second int) string {
	if a.priced() {
		d.Cost = a.cost(second) - a.cost(first)
	}
	more := a.more(first, second)
	switch {
	case !a.priced() && a.Outcomes[first].Bought() == a.Outcomes[second].Bought():
		return fmt.Sprintf("%s takes as many drives as %s.", a.name(second), a.name(first))
	case !a.priced():
		return fmt.Sprintf("%s takes %s than %s.", a.name(second), more, a.name(first))
	case tens(math.Abs(d.Cost)) == 0:
		return fmt.Sprintf("%s costs the same as %s.", a.name(second), a.name(first))
	}
	text := fmt.Sprintf("%s costs %s than %s over %s", a.name(second), more, a.name(first), a.life())
	if by := 100 * (a.cost(second)/a.cost(first) - 1); math.Abs(by) >= 0.5 && !math.IsInf(by, 0) {
		text += fmt.Sprintf(" (%+.0f %%)", by)
	}
	return text + "."
}
