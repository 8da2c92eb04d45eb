package choose

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/sim"
	"arrayodds/sim/answer"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/figure"
	"arrayodds/sim/study"
)

// Request is what is asked.
type Request struct {
	Source  *axis.Source // has a goal; its choices are designs of today
	Bays    int          // at most; 0: those of the recorder
	Spares  int          // hot spares of a design, at most
	Options engine.Options
}

// Found is the result of [Find].
type Found struct {
	Site     array.Site
	Seed     uint64
	Designs  []Design // all that were searched, the cheapest first
	Begun    []int    // how many each round began with
	Compared int      // how many were held against the goal over the doubt
	// Finalists are those of the front that were compared, the cheapest first, as compare
	// gives choices.
	Finalists   study.Comparison
	Recommended int         // place among the finalists; −1: none meets the goal
	RunnerUp    int         // place; −1: none
	Says        []string    // what to buy and why, in three sentences; what would make the runner-up win
	Next        []NextMoney // what money buys most for the best design of today's file, the most first
	Today       string      // label of that; empty: there is none that holds the footage
	Assumptions []site.Assumption
	// SiteFile is the site file with the designs in it that take the same options as the
	// recommended one, or as the first where there is none, and with these options.
	SiteFile string
}

// NextMoney is one thing that could be bought for a design.
type NextMoney struct {
	Label string
	Cost  float64 // over the service life; below 0 where it saves
	// Spared is how many fewer of [answer.Class] sites lose footage, and Ratio the loss
	// chance with it ÷ that without, from the same random streams.
	Spared float64
	Ratio  estimate.Estimate
}

// Per100 returns how many fewer of the class lose footage for each 100 of money; +Inf
// where it costs nothing.
func (n NextMoney) Per100() float64 {
	if n.Cost <= 0 {
		return math.Inf(1)
	}
	return n.Spared / n.Cost * 100
}

// NoGoalError says that a file has nothing to choose by.
type NoGoalError struct{}

func (NoGoalError) Error() string {
	return "found no [goal] in the site file; right would be one with a loss_chance, such as \"1 in 1 000\": without it the cheapest design is the one without any redundancy"
}

// NothingError says that no design can be held against the goal.
type NothingError struct {
	Priceless bool // for want of prices; else no design holds the footage
}

func (e NothingError) Error() string {
	if e.Priceless {
		return "found no price of the drives; right would be a price for each of [[drives]] that is to be searched: the cheapest design is asked for"
	}
	return "found no design that holds the footage; right would be larger drives, more bays or less to keep: arrayodds size says how far each falls short"
}

// search is a search under way.
type search struct {
	Request
	sets []set
}

// finalists is how many designs are compared over the doubt at a time, and mostCompared
// how many in all.
const (
	finalists    = 6
	mostCompared = 24
)

// Find searches the designs of a site. Errors are a [NoGoalError], a [study.LimitError],
// [site.Errors] of options, and that of the context.
func Find(ctx context.Context, asked Request) (Found, error) {
	own := asked.Source.File()
	if own.Site.Goal == nil {
		return Found{}, NoGoalError{}
	}
	s := &search{Request: asked}
	var err error
	if s.sets, err = sets(asked.Source); err != nil {
		return Found{}, err
	}
	all, err := designs(s.sets, asked.Bays, asked.Spares)
	if err != nil {
		return Found{}, err
	}
	if len(all) == 0 {
		return Found{}, NothingError{}
	}
	out := Found{Site: own.Site, Seed: asked.Options.Seed, Recommended: -1, RunnerUp: -1, Assumptions: own.Assumptions}
	if out.Begun, err = s.race(ctx, all); err != nil {
		return Found{}, err
	}
	byCost(all)
	out.Designs = all
	if err := s.compare(ctx, &out); err != nil {
		return Found{}, err
	}
	if len(out.Finalists.Outcomes) == 0 {
		return Found{}, NothingError{Priceless: slices.ContainsFunc(all, func(d Design) bool { return math.IsNaN(d.Sizing.Purchase) })}
	}
	if err := s.siteFile(&out); err != nil {
		return Found{}, err
	}
	if err := s.today(ctx, &out); err != nil {
		return Found{}, err
	}
	out.says()
	return out, nil
}

// compare holds the front against the goal over the doubt, the cheapest first, until one
// meets it and the next dearer ones are known too.
func (s *search) compare(ctx context.Context, out *Found) error {
	var front []Design
	for _, d := range out.Designs {
		if d.Front {
			front = append(front, d)
		}
	}
	// What misses the goal by far as entered hardly meets it over the doubt: of those the
	// dearest two are compared, to show what they lack.
	first := slices.IndexFunc(front, func(d Design) bool { return d.Loss.Value <= 2*s.goal().LossChance })
	if first < 0 {
		first = len(front)
	}
	front = front[max(0, first-2):]
	front = front[:min(len(front), mostCompared)]
	for len(front) > 0 {
		part := front[:min(finalists, len(front))]
		front = front[len(part):]
		c, err := s.compared(ctx, part)
		if err != nil {
			return err
		}
		out.merge(c)
		out.Compared += len(part)
		met := 0
		for _, o := range out.Finalists.Outcomes {
			if answer.MeetsGoal(out.Finalists, o) {
				met++
			}
		}
		if met >= 2 {
			break
		}
	}
	if len(out.Finalists.Outcomes) == 0 {
		return nil
	}
	out.Recommended = answer.Of(out.Finalists).Recommended // of equal cost the safer
	for i, o := range out.Finalists.Outcomes {
		if i != out.Recommended && out.RunnerUp < 0 && answer.MeetsGoal(out.Finalists, o) {
			out.RunnerUp = i
		}
	}
	if out.RunnerUp < 0 && out.Recommended > 0 {
		out.RunnerUp = out.Recommended - 1
	}
	return nil
}

// siteFile writes the site file with the designs in it.
func (s *search) siteFile(out *Found) error {
	if len(out.Finalists.Outcomes) == 0 {
		return nil
	}
	labels := func(o study.Outcome) (all []string) {
		for _, option := range o.Options {
			all = append(all, option.Label)
		}
		return all
	}
	taken := labels(out.Finalists.Outcomes[max(0, out.Recommended)])
	var choices []array.Choice
	for _, o := range out.Finalists.Outcomes {
		if slices.Equal(labels(o), taken) {
			choices = append(choices, o.Choice)
		}
	}
	for _, set := range s.sets {
		if slices.Equal(labels(study.Outcome{Options: set.options}), taken) {
			source, err := s.Source.WithChoices(choices, set.settings...)
			if err != nil {
				return err
			}
			out.SiteFile = source.Text()
		}
	}
	return nil
}

func (s *search) goal() *array.Goal { return s.Source.File().Site.Goal }

// compared compares designs as [study.Compare] does, those of one set of options together.
func (s *search) compared(ctx context.Context, part []Design) ([]study.Comparison, error) {
	var all []study.Comparison
	for k, set := range s.sets {
		var choices []array.Choice
		var of []Design
		for _, d := range part {
			if d.set == k {
				choices, of = append(choices, d.Choice), append(of, d)
			}
		}
		if choices == nil {
			continue
		}
		source, err := s.Source.WithChoices(choices, set.settings...)
		if err != nil {
			return nil, err
		}
		asked := study.Request{Source: source, Options: s.Options}
		asked.Options.Progress = partOf(s.Options.Progress, 0.6, 0.95)
		for i := range choices {
			asked.Choices = append(asked.Choices, i)
		}
		c, err := study.Compare(ctx, asked, sim.Run)
		if err != nil {
			return nil, err
		}
		for i := range c.Outcomes {
			c.Outcomes[i].Options, c.Outcomes[i].Sizing.Purchase = of[i].Options, of[i].Sizing.Purchase
		}
		all = append(all, c)
	}
	return all, nil
}

// merge adds comparisons of designs to the finalists, the cheapest first. Pairs that were
// not compared at the same settings are not known to each other.
func (f *Found) merge(parts []study.Comparison) {
	all := &f.Finalists
	for _, c := range parts {
		before := len(all.Outcomes)
		if before == 0 {
			*all = c
			all.Site = f.Site
			continue
		}
		shift := len(all.Doubt.Inputs)
		for i := range c.Outcomes {
			if d := c.Outcomes[i].Doubt; d != nil {
				for m := range d.Moves {
					d.Moves[m].Input += shift
				}
			}
		}
		all.Outcomes = append(all.Outcomes, c.Outcomes...)
		all.Doubt.Inputs = append(all.Doubt.Inputs, c.Doubt.Inputs...)
		all.Doubt.Settings = max(all.Doubt.Settings, c.Doubt.Settings)
		n := len(all.Outcomes)
		safer := make([][]float64, n)
		for i := range safer {
			safer[i] = make([]float64, n)
			for j := range safer[i] {
				safer[i][j] = math.NaN()
				switch {
				case i < before && j < before:
					safer[i][j] = all.Doubt.Safer[i][j]
				case i >= before && j >= before:
					safer[i][j] = c.Doubt.Safer[i-before][j-before]
				}
			}
		}
		all.Doubt.Safer = safer
		all.Doubt.LeftOut = mergeLeftOut(all.Doubt.LeftOut, c.Doubt.LeftOut, before, len(c.Outcomes))
	}
	f.sort()
}

// mergeLeftOut adds the hazards tried on further outcomes.
func mergeLeftOut(a, b []study.LeftOut, before, more int) (all []study.LeftOut) {
	none := func(n int) (e []estimate.Estimate) {
		for range n {
			e = append(e, estimate.None())
		}
		return e
	}
	for _, l := range a {
		other := slices.IndexFunc(b, func(x study.LeftOut) bool { return x.Key == l.Key })
		chance, factor, matters := none(more), none(more), false
		if other >= 0 {
			chance, factor, matters = b[other].Chance, b[other].Factor, b[other].Matters
		}
		l.Chance, l.Factor = slices.Concat(l.Chance, chance), slices.Concat(l.Factor, factor)
		l.Matters = l.Matters || matters
		all = append(all, l)
	}
	for _, l := range b {
		if !slices.ContainsFunc(a, func(x study.LeftOut) bool { return x.Key == l.Key }) {
			l.Chance, l.Factor = slices.Concat(none(before), l.Chance), slices.Concat(none(before), l.Factor)
			all = append(all, l)
		}
	}
	return all
}

// sort puts the finalists in the order of what they cost.
func (f *Found) sort() {
	all := &f.Finalists
	n := len(all.Outcomes)
	order := make([]int, n)
	for i := range order {
		order[i] = i
	}
	cost := func(i int) float64 { return all.Outcomes[i].CostOfLife(f.Site).Total().Value }
	slices.SortStableFunc(order, func(i, j int) int {
		switch x, y := cost(i), cost(j); {
		case x < y:
			return -1
		case x > y:
			return 1
		}
		return 0
	})
	was := *all
	all.Outcomes = nil
	safer := make([][]float64, n)
	for at, i := range order {
		all.Outcomes = append(all.Outcomes, was.Outcomes[i])
		safer[at] = make([]float64, n)
		for to, j := range order {
			safer[at][to] = was.Doubt.Safer[i][j]
		}
	}
	doubt := *was.Doubt
	doubt.Safer, doubt.LeftOut = safer, nil
	for _, l := range was.Doubt.LeftOut {
		moved := l
		moved.Chance, moved.Factor = nil, nil
		for _, i := range order {
			moved.Chance, moved.Factor = append(moved.Chance, l.Chance[i]), append(moved.Factor, l.Factor[i])
		}
		doubt.LeftOut = append(doubt.LeftOut, moved)
	}
	all.Doubt = &doubt
}

// labels returns the names of the finalists.
func (f *Found) name(i int) string { return f.Finalists.Outcomes[i].Choice.Label }

// says writes the recommendation.
func (f *Found) says() {
	f.Says = answer.Of(f.Finalists).Advice
	if f.Recommended >= 0 && f.RunnerUp >= 0 && f.RunnerUp != f.Recommended {
		a := answer.Of(f.Finalists)
		text := fmt.Sprintf("The runner-up is %s: %s.", f.name(f.RunnerUp), a.Choices[f.RunnerUp].Price)
		if fails := a.Choices[f.Recommended].Fails; fails != "" && f.RunnerUp > f.Recommended {
			text += " It wins where the first does not meet the goal. " + fails
		} else if fails := a.Choices[f.RunnerUp].Fails; fails != "" && f.RunnerUp < f.Recommended {
			text += " It is cheaper and would win if it met the goal. " + fails
		}
		f.Says = append(f.Says, text)
	}
}

// NextWords says what money buys most for the best design of today; empty where there is
// nothing to say.
func (f Found) NextWords() string {
	if f.Today == "" || len(f.Next) == 0 {
		return ""
	}
	var all []string
	for _, n := range f.Next[:min(3, len(f.Next))] {
		spared := fmt.Sprintf("%s fewer of %s sites lose footage", figure.Number(answer.Rough(estimate.Exact(n.Spared))), figure.Whole(answer.Class))
		switch {
		case n.Cost <= 0:
			all = append(all, fmt.Sprintf("%s costs nothing and %s", n.Label, spared))
		default:
			all = append(all, fmt.Sprintf("%s for %s: %s, %s for each 100", n.Label, figure.Money(math.Round(n.Cost), f.Site.Currency), spared, figure.Number(answer.Rough(estimate.Exact(n.Per100())))))
		}
	}
	return fmt.Sprintf("For %s, the best of the file's own choices, money buys most as: %s.", f.Today, strings.Join(all, "; "))
}
