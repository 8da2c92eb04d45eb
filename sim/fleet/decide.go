package fleet

import (
	"cmp"
	"context"
	"math"
	"slices"

	"arrayodds/sim/now"
)

// decide simulates arrays further of which too few lives leave open whether anything helps,
// the greatest chance first, until that is known, their budget is used up, or the lives for
// that are. Where nothing is known to help an array stands at the end of the order, and
// would not be looked at again.
func (t *triage) decide(ctx context.Context) error {
	for left := trustLives; left > 0; {
		var open []int
		for i, c := range t.cases {
			if int64(c.lives) < t.q.Options.MaxTrials && undecided(&c.answer) != nil {
				open = append(open, i)
			}
		}
		slices.SortStableFunc(open, func(i, j int) int { return cmp.Compare(t.matters(j), t.matters(i)) })
		open = open[:min(trustedAtATime, len(open))]
		var some []int
		for _, i := range open {
			c := t.cases[i]
			lives := min(int64(c.lives)*moreLives, t.q.Options.MaxTrials, int64(left/len(open)))
			if lives > int64(c.lives) {
				c.asked, c.accuracy = lives, -1 // all of them: what is to be known better is a ratio
				some = append(some, i)
			}
		}
		if len(some) == 0 {
			return nil
		}
		if err := t.simulate(ctx, some); err != nil {
			return err
		}
		for _, i := range some {
			left -= t.cases[i].lives
		}
	}
	return nil
}

// helping returns the action that is known to help most; nil where none is.
func helping(r *now.Result) *now.Action {
	for i := range r.Actions {
		if r.Actions[i].Helps() {
			return &r.Actions[i]
		}
	}
	return nil
}

// undecided returns the action that seems to help most where it is not known that it does:
// as its interval has room for no effect, or as no loss was seen with it, or none at all.
func undecided(r *now.Result) *now.Action {
	if len(r.Actions) == 0 { // they are in order, those of which nothing is known last
		return nil
	}
	a := &r.Actions[0]
	if a.Helps() || a.Ratio.Value > 0.95 || math.IsNaN(a.Ratio.Value) && r.Loss.High == 0 {
		return nil
	}
	return a
}
