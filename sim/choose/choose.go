package choose

import (
	"context"
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/sim"
	"arrayodds/sim/answer"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
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
//
// With a fixed number of blocks ([engine.Options.Blocks]) the race is one round, in which
// every design has so many, and that can be divided: the error of a share is
// [engine.ErrPart] once it is done. What follows, a few designs, is for whoever puts the
// shares together.
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
	s.Options = s.Options.Undivided() // what is compared depends on the race
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
		asked.Options.Progress = engine.PartOf(s.Options.Progress, 0.6, 0.95)
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
