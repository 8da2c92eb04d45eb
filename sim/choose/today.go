package choose

import (
	"cmp"
	"context"
	"math"
	"slices"

	"arrayodds/array"
	"arrayodds/sim"
	"arrayodds/sim/answer"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
	"arrayodds/sim/sweep"
)

// nextTrials is the lives by which a thing that could be bought is held against the design
// of today: ratios from common streams are sharp.
const nextTrials = 1024

// today finds what money buys most for the best design of the file as it stands: the one
// that its own choices recommend, or else the safest that holds the footage.
func (s *search) today(ctx context.Context, out *Found) error {
	own := s.Source.File()
	var choices []int
	for i, c := range own.Site.Choices {
		if z, err := own.Site.Size(c); err == nil && z.Meets {
			choices = append(choices, i)
		}
	}
	if choices == nil {
		return nil
	}
	opt := s.Options
	opt.Progress = engine.PartOf(s.Options.Progress, 0.95, 1)
	c, err := study.Compare(ctx, study.Request{Source: s.Source, Choices: choices, Options: opt}, sim.Run)
	if err != nil {
		return err
	}
	a := answer.Of(c)
	best := a.Recommended
	if best < 0 {
		best = a.Order[0]
	}
	o := c.Outcomes[best]
	if !o.Simulated() {
		return nil
	}
	out.Today = o.Choice.Label
	base := own.Site.Choices[choices[best]]
	points := []sweep.Point{{Site: own.Site, Choice: base}}
	var next []NextMoney
	var bought []Design
	add := func(label string, k int, c array.Choice) {
		site := s.sets[k].file.Site
		z, err := site.Size(c)
		if err != nil {
			return
		}
		d := Design{Choice: c, Sizing: z, set: k}
		s.sets[k].priced(&d)
		points, bought = append(points, sweep.Point{Site: site, Choice: c}), append(bought, d)
		next = append(next, NextMoney{Label: label})
	}
	for k, set := range s.sets {
		if len(set.options) == 1 {
			add(set.options[0].Label, k, set.file.Site.Choices[choices[best]])
		}
	}
	if more := base; o.Redundant() {
		more.HotSpares++
		label := "a hot spare"
		if base.HotSpares > 0 {
			label = "another hot spare"
		}
		if r := base.Recorder; r == nil || r.Bays == 0 || more.Drives+more.HotSpares <= r.Bays {
			add(label, 0, more) // the first set has no options
		}
	}
	opt.Accuracy, opt.MaxTrials, opt.Progress = -1, nextTrials, nil
	opt.Branching = !o.Result.Plain
	series, err := sweep.Run(ctx, points, opt)
	if err != nil {
		return err
	}
	was := o.CostOfLife(own.Site).Total().Value
	for k := range next {
		bought[k].Replaced = series.Result(k + 1).DrivesReplaced
		next[k].Cost = s.cost(bought[k]) - was
		next[k].Ratio = series.Ratio(k+1, series, 0).Estimate
		next[k].Spared = answer.Risk(o).Value * (1 - next[k].Ratio.Value) * answer.Class
	}
	// A design of today whose drive has no price costs nobody knows what.
	next = slices.DeleteFunc(next, func(n NextMoney) bool { return !n.Ratio.Known() || n.Spared <= 0 || math.IsNaN(n.Cost) })
	slices.SortStableFunc(next, func(x, y NextMoney) int { return -cmp.Compare(x.Per100(), y.Per100()) })
	out.Next = next
	return nil
}
