package answer

import (
	"fmt"
	"math"

	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// advice returns the choice to buy and why, or −1 and what is wanting. What is safe enough
// is said by the goal in the file: without one the program has no business to choose.
func (a answers) advice(order []int) (int, []string) {
	fit := a.fitting(order)
	if len(fit) == 0 {
		return -1, []string{"None of these choices holds the footage for as long as is asked. `arrayodds size` tells how many drives would."}
	}
	cost := a.rank()
	cheapest, safest := fit[0], fit[0]
	for _, i := range fit {
		if cost(i) < cost(cheapest) {
			cheapest = i
		}
	}
	if a.Site.Goal == nil {
		return -1, a.withoutGoal(cheapest, safest)
	}
	best := -1
	for _, i := range fit { // safest first: of equal cost the safer one
		if a.meetsGoal(i) && (best < 0 || cost(i) < cost(best)) {
			best = i
		}
	}
	if best < 0 {
		return -1, a.noneMeets(safest)
	}
	says := []string{fmt.Sprintf("%s: the cheapest here that meets the goal, %s. It %s.", a.name(best), a.goalWords(), a.costs(best))}
	says = append(says, fmt.Sprintf("Of %s sites like this %s lose footage in %s with it (%s, %s)%s.",
		figure.Whole(Class), withoutClass(InClass(Risk(a.Outcomes[best]))), a.life(), Odds(Risk(a.Outcomes[best])), a.over("over all that is uncertain"), a.held(best)))
	if next := a.nextCheaper(best, fit, cost); next >= 0 {
		says = append(says, fmt.Sprintf("%s would cost %s and misses the goal: %s.", a.name(next), a.more(best, next), a.misses(next)))
	}
	if next := a.cheapestSafer(best, fit, cost); next >= 0 {
		says = append(says, fmt.Sprintf("For %s, %s loses footage %s.", a.more(best, next), a.name(next), lessOften(ratio(Risk(a.Outcomes[best]), Risk(a.Outcomes[next])))))
	}
	return best, says
}

// costs says what a choice costs, with its verb.
func (a answers) costs(i int) string {
	if math.IsNaN(a.Outcomes[i].Sizing.Purchase) {
		return "takes " + a.price(i)
	}
	return "costs " + a.price(i)
}

// withoutClass leaves out what an InClass ends with.
func withoutClass(s string) string {
	end := " of " + figure.Whole(Class)
	return s[:len(s)-min(len(s), len(end))]
}

func (a answers) withoutGoal(cheapest, safest int) []string {
	holds := ""
	if a.hasCameras() {
		holds = " that holds the footage"
	}
	if len(a.Outcomes) == 1 {
		return []string{
			fmt.Sprintf("With %s %s lose footage in %s (%s). It %s.", a.name(safest), InClass(Risk(a.Outcomes[safest])), a.life(), Odds(Risk(a.Outcomes[safest])), a.costs(safest)),
			"The file states no goal. With a [goal] it would say whether that is safe enough.",
		}
	}
	if cheapest == safest {
		return []string{
			fmt.Sprintf("%s is both the cheapest"+holds+" and the safest: %s lose footage in %s (%s). It %s.", a.name(safest), InClass(Risk(a.Outcomes[safest])), a.life(), Odds(Risk(a.Outcomes[safest])), a.costs(safest)),
			"The file states no goal. With a [goal] it would say whether that is safe enough.",
		}
	}
	return []string{
		fmt.Sprintf("The cheapest"+holds+" is %s: %s lose footage in %s (%s). It %s.", a.name(cheapest), InClass(Risk(a.Outcomes[cheapest])), a.life(), Odds(Risk(a.Outcomes[cheapest])), a.costs(cheapest)),
		fmt.Sprintf("The safest is %s: %s (%s), for %s.", a.name(safest), InClass(Risk(a.Outcomes[safest])), Odds(Risk(a.Outcomes[safest])), a.more(cheapest, safest)),
		"The file states no goal. With a [goal], such as loss_chance = \"1 in 1 000\", the cheapest that is safe enough would be named here.",
	}
}

func (a answers) noneMeets(safest int) []string {
	says := []string{fmt.Sprintf("None of the choices that hold the footage meets the goal, %s. The nearest is %s: %s.", a.goalWords(), a.name(safest), a.misses(safest))}
	if text := losses(a.Outcomes[safest]); text != "" {
		says = append(says, text)
	}
	return says
}

// goalWords returns the goal of the site.
func (a answers) goalWords() string {
	g := a.Site.Goal
	text := "at most " + figure.Chance(g.LossChance) + " to lose footage in " + a.life()
	if g.MissingClip > 0 && a.hasCameras() {
		text += ", at most " + figure.Chance(g.MissingClip) + " that a clip is missing"
	}
	if g.Budget > 0 {
		text += ", at most " + figure.Money(g.Budget, a.Site.Currency) + " over the life"
	}
	return text
}

// The goal has parts, each of which a choice meets or not, over the doubt.
func (a answers) meetsLoss(i int) bool { return Risk(a.Outcomes[i]).Value <= a.Site.Goal.LossChance }
func (a answers) meetsMissing(i int) bool {
	g := a.Site.Goal
	return g.MissingClip == 0 || !a.hasCameras() || MissingRisk(a.Outcomes[i]).Value <= g.MissingClip
}
func (a answers) meetsBudget(i int) bool {
	g := a.Site.Goal
	return g.Budget == 0 || math.IsNaN(a.cost(i)) || a.cost(i) <= g.Budget
}

// meetsGoal reports whether a choice meets every part of the goal, over the doubt.
func (a answers) meetsGoal(i int) bool {
	return a.meetsLoss(i) && a.meetsMissing(i) && a.meetsBudget(i)
}

// MeetsGoal reports whether a choice that is compared meets every part of the goal of the
// site, over the doubt; without a goal it does.
func MeetsGoal(c study.Comparison, o study.Outcome) bool {
	if c.Site.Goal == nil {
		return true
	}
	c.Outcomes = []study.Outcome{o}
	return o.Simulated() && o.Sizing.Meets && answers{c}.meetsGoal(0)
}

// over returns words for chances over the doubt, or where that was not worked out what
// they are of then.
func (a answers) over(words string) string {
	if a.Doubt == nil || a.Doubt.Settings == 0 {
		return "as entered"
	}
	return words
}

// misses says which part of the goal a choice misses, with its figure.
func (a answers) misses(i int) string {
	o := a.Outcomes[i]
	var parts []string
	if !a.meetsLoss(i) {
		parts = append(parts, Odds(Risk(o))+" to lose footage, "+a.over("in all"))
	}
	if !a.meetsMissing(i) {
		parts = append(parts, Odds(MissingRisk(o))+" that a clip is missing, "+a.over("in all"))
	}
	if !a.meetsBudget(i) {
		parts = append(parts, figure.Money(tens(a.cost(i)), a.Site.Currency)+" over the life")
	}
	return figure.List(parts)
}

// held says in how many of the settings the goal for losses is met; empty where the doubt
// was not worked out.
func (a answers) held(i int) string {
	d := a.Outcomes[i].Doubt
	if d == nil || a.Doubt == nil || a.Doubt.Settings == 0 || math.IsNaN(d.GoalMet) {
		return ""
	}
	return "; the goal is met in " + Percent(d.GoalMet) + " of the settings that were tried"
}

// goal says whether a choice meets the goal, and in how many of the settings.
func (a answers) goal(i int) string {
	if a.Site.Goal == nil {
		return ""
	}
	text := "Meets the goal"
	if !a.meetsGoal(i) {
		text = "Misses the goal: " + a.misses(i)
	}
	d := a.Outcomes[i].Doubt
	if d == nil || a.Doubt == nil || a.Doubt.Settings == 0 || math.IsNaN(d.GoalMet) {
		return text + "."
	}
	in := Percent(d.GoalMet)
	if !math.IsNaN(d.MissingGoalMet) && Percent(d.MissingGoalMet) != in {
		in += " (losses) and " + Percent(d.MissingGoalMet) + " (missing clips)"
	}
	return text + "; it is met in " + in + " of the settings."
}

// fails says what would have to be true for the goal to fail, or to be met, where it is so
// in some of the settings; empty where it is not.
func (a answers) fails(i int) string {
	d := a.Outcomes[i].Doubt
	if a.Site.Goal == nil || d == nil || a.Doubt == nil || !(d.GoalMet > 0 && d.GoalMet < 1) || len(d.Moves) == 0 {
		return ""
	}
	m := d.Moves[0]
	in := a.Doubt.Inputs[m.Input]
	bad, good := in.High, in.Low
	if m.Factor < 1 {
		bad, good = good, bad
	}
	if a.meetsLoss(i) {
		return fmt.Sprintf("For its loss chance to miss the goal, first of all the %s would have to be near %s.", in.Called, bad)
	}
	return fmt.Sprintf("For its loss chance to meet the goal, first of all the %s would have to be near %s.", in.Called, good)
}

// nextCheaper returns the dearest of the choices that hold the footage and are cheaper;
// −1 where there is none.
func (a answers) nextCheaper(than int, fit []int, cost func(int) float64) int {
	next := -1
	for _, i := range fit {
		if cost(i) < cost(than) && (next < 0 || cost(i) > cost(next)) {
			next = i
		}
	}
	return next
}

// cheapestSafer returns the cheapest of the choices that hold the footage and are safer by
// half or more; −1 where there is none.
func (a answers) cheapestSafer(than int, fit []int, cost func(int) float64) int {
	next := -1
	for _, i := range fit {
		if ratio(Risk(a.Outcomes[than]), Risk(a.Outcomes[i])) >= 1.5 && (next < 0 || cost(i) < cost(next)) {
			next = i
		}
	}
	return next
}

// ratio returns how many times the chance of one choice is that of another.
func ratio(x, y estimate.Estimate) float64 { return x.Value / y.Value }

// lessOften says how much less often a choice loses footage than another, which does so
// many times as often.
func lessOften(by float64) string {
	if math.IsInf(by, 0) {
		return "in no life that was simulated"
	}
	return Times(by) + " times less often"
}
