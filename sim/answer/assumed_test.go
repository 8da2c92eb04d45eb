package answer

import (
	"slices"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/sim/estimate"
	"arrayodds/sim/study"
)

// What moves a chance is said by words, with the end at which losses are likelier.
func TestAssumed(t *testing.T) {
	t.Parallel()
	c := three()
	c.Doubt.Inputs[0].Given = true
	c.Doubt.Inputs[1] = study.DoubtfulInput{Called: "time until a new drive is in", Low: "×0.5", Likely: "lognormal: half within 36 h", High: "×2", Range: "half to twice, a guess"}
	c.Outcomes[1].Doubt.Moves = []study.Move{{Input: 0, Factor: 8}, {Input: 1, Factor: 1. / 3}, {Input: 1, Factor: 1.1}}
	got := Of(c).Choices[1].Assumed
	want := []Assumed{
		{"yearly failure rate of the 12 TB drives", "0.5 % to 4 %, most likely 1 %", "at the high end losses are 8 times as likely as at the low end", "range given for this site"},
		{"time until a new drive is in", "lognormal: half within 36 h; from 0.5 to 2 times that", "at the low end losses are 3 times as likely as at the high end", "range not given, taken as half to twice, a guess"},
	}
	if !slices.Equal(got, want) {
		t.Errorf("%q, want %q", got, want)
	}
}

func TestLeftOutOfAChoice(t *testing.T) {
	t.Parallel()
	c := three()
	hazard := study.LeftOut{Says: "a batch", Matters: true,
		Factor: []estimate.Estimate{estimate.Exact(1), estimate.Exact(40), estimate.Exact(0.5), estimate.None()},
		Chance: []estimate.Estimate{estimate.Exact(0.3), estimate.Exact(0.05), estimate.Exact(1e-5), estimate.Exact(0.01)}}
	idle := hazard
	idle.Says, idle.Matters = "a draught", false
	c.Doubt.LeftOut = []study.LeftOut{hazard, idle}
	a := Of(c)
	for i, want := range []string{"a batch would not touch it, but turn the order of others", "with a batch it would lose footage 40 times as often",
		"with a batch it would lose footage 2 times less often", "with a batch it could lose footage at all: 1 in 100"} {
		got := a.Choices[i].LeftOut
		if len(got) != 1 {
			t.Errorf("%d: %q, want one", i, got)
		}
		contains(t, got, want)
	}
}

func TestCompared(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		goal *array.Goal
		want []int
	}{
		{nil, []int{2, 0}},                           // the safest, the cheapest
		{&array.Goal{LossChance: 1e-3}, []int{2, 1}}, // what is recommended, the next cheaper
		{&array.Goal{LossChance: 0.5}, []int{0, 1}},  // nothing is cheaper: the cheapest that is safer
		{&array.Goal{LossChance: 1e-9}, []int{2, 0}}, // none meets it
	} {
		r := three()
		r.Site.Goal = c.goal
		if got := Of(r).Compared; !slices.Equal(got, c.want) {
			t.Errorf("%+v: %v, want %v", c.goal, got, c.want)
		}
	}
	r := three()
	for i := range r.Outcomes {
		r.Outcomes[i].Sizing.Meets = false
	}
	if got := Of(r).Compared; got != nil {
		t.Errorf("none holds the footage, and %v are compared", got)
	}
}

// Of one choice nothing is asked that takes two.
func TestOneChoice(t *testing.T) {
	t.Parallel()
	r := three()
	r.Outcomes, r.Doubt = r.Outcomes[1:2], nil
	a := Of(r)
	contains(t, []string{a.Question}, "How safely does single keep its footage over 5 years?")
	contains(t, a.Advice, "With single about 13 of 10 000 lose footage in 5 years (1 in 770). It costs 600 EUR to buy", "states no goal")
	contains(t, []string{a.Choices[0].Price}, "600 EUR to buy, 700 EUR over 5 years")
}

// Where the doubt was not worked out, no chance is said to be over it.
func TestAsEntered(t *testing.T) {
	t.Parallel()
	r := three()
	r.Site.Goal, r.Doubt = &array.Goal{LossChance: 1e-3}, nil
	for i := range r.Outcomes {
		r.Outcomes[i].Doubt = nil
	}
	advice := Of(r).Advice
	contains(t, advice, "single: the cheapest here that meets the goal", "about 7 lose footage in 5 years with it (1 in 1 500, as entered).", "15 in 100 to lose footage, as entered")
	if text := strings.Join(advice, " "); strings.Contains(text, "in all") || strings.Contains(text, "uncertain") {
		t.Error(text)
	}
}

// What loses nothing is not so many times safer.
func TestNoLoss(t *testing.T) {
	t.Parallel()
	r := three()
	r.Site.Goal = &array.Goal{LossChance: 1e-4}
	r.Outcomes[2].Doubt.LossInAll = estimate.Exact(0)
	r.Outcomes[2].Sizing.Purchase = 1100
	a := Of(r)
	contains(t, a.Beaten, "wide is beaten by double: it costs 100 EUR more and loses footage where the other loses none in any life that was simulated, as it has 12 drives")
	r.Outcomes[2].Sizing.Purchase = 1300
	contains(t, Of(r).Advice, "For 100 EUR more, double loses footage in no life that was simulated.")
}
