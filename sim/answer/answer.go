package answer

import (
	"cmp"
	"fmt"
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/array/label"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/predictive"
	"arrayodds/sim/study"
)

// Answer is what a comparison comes to. Places are those of its Outcomes.
type Answer struct {
	Question    string   // what is asked of the choices
	Goal        string   // what they are held against; empty: the site has no goal
	Advice      []string // what to buy and why, or what is wanting to say that
	Recommended int      // place; −1: none
	Compared    []int    // places of the choices that the advice sets side by side, at most two: the recommended one or else the safest first; none where none holds the footage
	Order       []int    // safest first, those that meet the demand before the others
	Parities    []string // for each step of redundancy on the same drives
	Beaten      []string // which choice is beaten by which, and why
	LeftOut     []string // hazards that are left out and would turn the answer
	Idle        []string // what the file gives and nothing depends on
	Notes       []string // on how all this was found, and what the site's own log says
	Choices     []Choice // by place
}

// Choice is what is said of one choice.
type Choice struct {
	Class   string    // "about 13 of 10 000"
	InAll   string    // odds in all, "1 in 770"
	Spread  string    // "1 in 2 300 to 1 in 230"
	Entered string    // odds as entered
	Goal    string    // whether it meets the goal, and in how many of the settings; empty: no goal
	Fails   string    // what would have to be true for that to be otherwise; empty: nothing that was tried
	Price   string    // to buy and over the service life; without prices how many drives
	Moves   []string  // what moves the chance most, the most first
	Losses  string    // what its losses are made of, and which remedy would touch that
	Missing string    // the same of clips that are asked for and missing; empty without cameras
	Assumed []Assumed // the same as Moves, each told apart
	LeftOut []string  // what the hazards that are left out and would turn the answer would do to it
}

// Of answers a comparison.
func Of(c study.Comparison) Answer {
	a := answers{c}
	out := Answer{Question: a.question(), Order: a.order(), Recommended: -1}
	if c.Site.Goal != nil {
		out.Goal = a.goalWords()
	}
	for i := range c.Outcomes {
		out.Choices = append(out.Choices, a.choice(i))
	}
	out.Recommended, out.Advice = a.advice(out.Order)
	out.Compared = a.compared(out.Recommended, out.Order)
	out.Parities = atMost(a.parities(), "step of redundancy is", "steps of redundancy are")
	out.Beaten = atMost(a.beaten(), "choice is beaten", "choices are beaten")
	out.LeftOut, out.Idle = a.leftOut(), a.idle()
	if d := c.Doubt; d != nil {
		if d.Why != "" {
			out.Notes = append(out.Notes, d.Why)
		}
	}
	out.Notes = append(out.Notes, predictive.Look(c.Site).Sentences()...)
	return out
}

// mostSaid is how many sentences of a kind a reader can be asked to read.
const mostSaid = 10

// atMost returns the first sentences, and how many more there are.
func atMost(says []string, one, many string) []string {
	n := len(says) - mostSaid
	if n <= 0 {
		return says
	}
	return append(says[:mostSaid:mostSaid], fmt.Sprintf("%s not told of here.", figure.Count(n, one, many)))
}

// answers is a comparison as sentences are made of it.
type answers struct{ study.Comparison }

// Risk returns the loss chance of a choice to reckon with: in all, or as entered where
// the doubt was not worked out.
func Risk(o study.Outcome) estimate.Estimate {
	if o.Doubt != nil && o.Doubt.LossInAll.Known() {
		return o.Doubt.LossInAll
	}
	return o.Result.LossChance
}

// MissingRisk returns the chance that a clip is missing to reckon with.
func MissingRisk(o study.Outcome) estimate.Estimate {
	if o.Doubt != nil && o.Doubt.MissingInAll.Known() {
		return o.Doubt.MissingInAll
	}
	return o.Result.MissingClip
}

func (a answers) name(i int) string { return label.Short(a.Outcomes[i].Choice.Label) }

func (a answers) life() string { return figure.Years(a.Site.ServiceLife / unit.HoursPerYear) }

func (a answers) hasCameras() bool { return len(a.Site.Cameras) > 0 }

func (a answers) question() string {
	which := "Which of " + figure.Count(len(a.Outcomes), "choice", "choices") + " keeps"
	if len(a.Outcomes) == 1 {
		which = "How safely does " + a.name(0) + " keep"
	}
	if !a.hasCameras() {
		if len(a.Outcomes) == 1 {
			return fmt.Sprintf("%s its footage over %s?", which, a.life())
		}
		return fmt.Sprintf("%s its footage best over %s?", which, a.life())
	}
	d := a.Site.Demand()
	return fmt.Sprintf("%s the footage of %s for up to %s, over %s of service? That takes %s TB%s.",
		which, figure.Count(a.Site.CameraCount(), "camera", "cameras"),
		figure.Plural(figure.Plain(d.Longest/24), "day", "days"), a.life(), figure.Exact(d.Needed/array.TB), a.Site.GrowthWords(figure.Exact))
}

// order returns the choices safest first: those that meet the demand, then those that do
// not, then those that were not simulated.
func (a answers) order() []int { return Order(a.Outcomes) }

// Order returns the places of outcomes as every list has them: safest first, those that
// meet the demand before those that do not. Equal ones stay in the order of the file.
func Order(outcomes []study.Outcome) []int {
	var places []int
	for i := range outcomes {
		places = append(places, i)
	}
	slices.SortStableFunc(places, func(i, j int) int {
		x, y := outcomes[i], outcomes[j]
		for _, b := range [][2]bool{{x.Sizing.Meets, y.Sizing.Meets}, {x.Simulated(), y.Simulated()}} {
			if b[0] != b[1] {
				if b[0] {
					return -1
				}
				return 1
			}
		}
		return cmp.Compare(Risk(x).Value, Risk(y).Value)
	})
	return places
}

func (a answers) choice(i int) Choice {
	o := a.Outcomes[i]
	if !o.Simulated() {
		return Choice{InAll: "not known", Class: "not simulated", Price: a.price(i)}
	}
	c := Choice{
		Class: InClass(Risk(o)), InAll: Odds(Risk(o)), Entered: Odds(o.Result.LossChance),
		Goal: a.goal(i), Fails: a.fails(i), Price: a.price(i), Losses: losses(o), Missing: a.missing(i),
		LeftOut: a.leftOutOf(i),
	}
	if d := o.Doubt; d != nil && a.Doubt != nil && a.Doubt.Settings > 0 && d.High > 0 {
		c.Spread = Odds(estimate.Exact(d.Low)) + " to " + Odds(estimate.Exact(d.High))
		c.Moves, c.Assumed = a.moves(i), a.assumed(i)
	}
	return c
}

// moves says how far the inputs move the chance of a choice, the most first, those that
// move it by less than a fifth left out.
func (a answers) moves(i int) (all []string) {
	for _, m := range a.Outcomes[i].Doubt.Moves {
		if m.Strength() < leastMoved {
			continue
		}
		in := a.Doubt.Inputs[m.Input]
		all = append(all, fmt.Sprintf("%s, %s to %s (likely %s): %s×", in.Called, in.Low, in.High, in.Likely, Times(m.Strength())))
	}
	return all
}

// cost returns what a choice costs over the service life; where that is not known its
// purchase, and without prices NaN.
func (a answers) cost(i int) float64 {
	o := a.Outcomes[i]
	if total := o.CostOfLife(a.Site).Total(); total.Known() {
		return total.Value
	}
	return o.Sizing.Purchase
}

// rank returns what choices are called cheaper by: their cost, or the drives to buy where
// some of them has no price.
func (a answers) rank() func(i int) float64 {
	for i := range a.Outcomes {
		if math.IsNaN(a.cost(i)) {
			return func(i int) float64 { return float64(a.Outcomes[i].Bought()) }
		}
	}
	return func(i int) float64 { return tens(a.cost(i)) }
}

func (a answers) priced() bool {
	for i := range a.Outcomes {
		if math.IsNaN(a.cost(i)) {
			return false
		}
	}
	return true
}

// price returns what a choice costs, in words.
func (a answers) price(i int) string {
	o := a.Outcomes[i]
	if math.IsNaN(o.Sizing.Purchase) {
		return figure.Count(o.Bought(), "drive", "drives")
	}
	text := figure.Money(o.Sizing.Purchase, a.Site.Currency) + " to buy"
	if total := o.CostOfLife(a.Site).Total(); total.Known() {
		text += ", " + figure.Money(tens(total.Value), a.Site.Currency) + " over " + a.life()
	}
	return text
}

// more returns how much more one choice costs than another, in words; it may be less.
func (a answers) more(than, i int) string {
	if !a.priced() {
		n := a.Outcomes[i].Bought() - a.Outcomes[than].Bought()
		switch {
		case n > 0:
			return figure.Count(n, "drive", "drives") + " more"
		case n < 0:
			return figure.Count(-n, "drive", "drives") + " fewer"
		}
		return "as many drives"
	}
	d := a.cost(i) - a.cost(than)
	sum := figure.Money(tens(math.Abs(d)), a.Site.Currency)
	switch {
	case tens(math.Abs(d)) == 0:
		return "the same cost"
	case d > 0:
		return sum + " more"
	}
	return sum + " less"
}

// tens rounds a sum over a life, which rests on estimates, to tens.
func tens(x float64) float64 { return math.Round(x/10) * 10 }
