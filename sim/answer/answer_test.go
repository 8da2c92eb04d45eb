package answer

import (
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
	"arrayodds/sim/study"
)

// outcome returns a choice of some tolerance with a chance in all, at a price.
func outcome(name string, level array.Level, tolerance, drives int, inAll, price float64) study.Outcome {
	e := estimate.FromInterval(inAll, 0.9*inAll, 1.1*inAll)
	return study.Outcome{
		Choice: array.Choice{Label: name, Drive: array.Drive{Label: "12 TB", Price: 100}, Layout: array.Layout{Level: level}, Drives: drives, Groups: 1},
		Sizing: array.Sizing{Usable: 60e12, Meets: true, Purchase: price, Shape: array.Shape{Sets: 1, GroupsPerSet: 1, DrivesInGroup: drives, Tolerance: tolerance}},
		Result: sim.Result{LossChance: e.Times(0.5), DrivesReplaced: estimate.Exact(1), LossShares: []sim.LossShare{
			{Cause: model.Waiting, Estimate: estimate.Exact(0.7)}, {Cause: model.CommonCause, Estimate: estimate.Exact(0.3)}}},
		Doubt: &study.ChoiceDoubt{LossInAll: e, Low: inAll / 10, Median: inAll / 2, High: 4 * inAll, GoalMet: 0.75, MissingGoalMet: math.NaN(),
			Moves: []study.Move{{Input: 0, Factor: 8}, {Input: 1, Factor: 1.05}}},
	}
}

func three() study.Comparison {
	return study.Comparison{
		Site: array.Site{ServiceLife: 5 * unit.HoursPerYear, Currency: "EUR", EnergyPrice: math.NaN()},
		Outcomes: []study.Outcome{
			outcome("bare", array.JBOD, 0, 5, 0.3, 500),
			outcome("single", array.RAID5, 1, 6, 1.3e-3, 600),
			outcome("double", array.RAID6, 2, 7, 2e-5, 700),
			outcome("wide", array.RAID6, 2, 12, 9e-5, 1200),
		},
		Doubt: &study.Doubt{
			Settings: 64,
			Inputs: []study.DoubtfulInput{
				{Path: "drives.12 TB.life.afr", Called: "yearly failure rate of the 12 TB drives", Low: "0.5 %", Likely: "1 %", High: "4 %"},
				{Path: "care.response", Called: "time until a new drive is in", Low: "12 h", Likely: "24 h", High: "48 h"},
			},
			Safer: [][]float64{{math.NaN(), 0, 0, 0}, {1, math.NaN(), 0, 0.05}, {1, 1, math.NaN(), 0.98}, {1, 0.95, 0.02, math.NaN()}},
		},
	}
}

func contains(t *testing.T, all []string, parts ...string) {
	t.Helper()
	text := strings.NewReplacer("\u202f", " ", "\u00a0", " ").Replace(strings.Join(all, "\n"))
	for _, p := range parts {
		if !strings.Contains(text, p) {
			t.Errorf("%q is not in\n%s", p, text)
		}
	}
}

func TestAnswer(t *testing.T) {
	t.Parallel()
	a := Of(three())
	if !slices.Equal(a.Order, []int{2, 3, 1, 0}) {
		t.Errorf("order %v", a.Order)
	}
	if a.Recommended != -1 {
		t.Error("a choice is recommended without a goal")
	}
	contains(t, a.Advice, "The cheapest is bare: about 3 000 of 10 000 lose footage in 5 years (30 in 100)", "The safest is double: fewer than 1 of 10 000 (1 in 50 000), for 200 EUR more", "states no goal")
	if len(a.Parities) != 2 {
		t.Errorf("%q", a.Parities)
	}
	contains(t, a.Parities,
		"Is one parity worth it on 12 TB drives? single in place of bare is 100 EUR more (+17 %). Of 10 000 sites like this about 13 lose footage in 5 years, in place of about 3 000: 230 times fewer. It is the safer one in every setting",
		"Is a second parity worth it on 12 TB drives? double in place of single is 100 EUR more (+14 %). Of 10 000 sites like this fewer than 1 lose footage in 5 years, in place of about 13: 65 times fewer.")
	if len(a.Beaten) != 1 {
		t.Errorf("%q", a.Beaten)
	}
	contains(t, a.Beaten, "wide is beaten by double: it costs 500 EUR more and loses footage 4.5 times as often, as it has 12 drives in a group that can fail and the other 7. (In 98 % of the settings")
	c := a.Choices[1]
	contains(t, []string{c.Class, c.InAll, c.Spread, c.Losses}, "about 13 of 10 000", "1 in 770", "1 in 7 700 to 1 in 192", "70 % by further failures while a failed drive waits and 30 % by events that strike many drives at once. What would touch the most of it: a faster visit or a hot spare.")
	if len(c.Moves) != 1 || !strings.Contains(c.Moves[0], "8×") {
		t.Errorf("moves %q", c.Moves)
	}
}

func TestGoal(t *testing.T) {
	t.Parallel()
	r := three()
	r.Site.Goal = &array.Goal{LossChance: 1e-3}
	a := Of(r)
	if a.Recommended != 2 {
		t.Errorf("recommended %d", a.Recommended)
	}
	contains(t, a.Advice, "double: the cheapest here that meets the goal, at most 1 in 1 000 to lose footage in 5 years. It costs 700 EUR to buy, 800 EUR over 5 years.", "met in 75 % of the settings", "single would cost 100 EUR less and misses the goal: 1 in 770")
	contains(t, []string{a.Choices[1].Goal, a.Choices[1].Fails, a.Choices[2].Fails}, "Misses the goal: 1 in 770 to lose footage, in all; it is met in 75 % of the settings.",
		"to meet the goal, first of all the yearly failure rate of the 12 TB drives would have to be near 0.5 %", "to miss the goal, first of all the yearly failure rate of the 12 TB drives would have to be near 4 %")

	r.Site.Goal.LossChance = 1e-6
	if a = Of(r); a.Recommended != -1 {
		t.Errorf("recommended %d", a.Recommended)
	}
	contains(t, a.Advice, "None of the choices", "The nearest is double: 1 in 50 000 to lose footage, in all")

	r.Site.Goal = &array.Goal{LossChance: 1e-3, Budget: 750}
	contains(t, Of(r).Advice, "None of the choices", "800 EUR over the life")
}

// The class is one for all, and what is rarer than it says so.
func TestInClass(t *testing.T) {
	t.Parallel()
	for p, want := range map[float64]string{0.0013: "about 13 of 10 000", 0.26642: "about 2 700 of 10 000", 4e-5: "fewer than 1 of 10 000", 0.99999: "all of 10 000", 0: "none of 10 000", 0.00012: "about 1 of 10 000"} {
		if got := strings.ReplaceAll(InClass(estimate.Exact(p)), "\u202f", " "); got != want {
			t.Errorf("%g: %q, want %q", p, got, want)
		}
	}
	if got := InClass(estimate.Unseen(1000, 1)); !strings.Contains(got, "none seen") {
		t.Errorf("%q", got)
	}
	for p, want := range map[float64]int{0.0013: 13, 4e-5: 0, 1: 10000} {
		if got := Icons(estimate.Exact(p)); got != want {
			t.Errorf("%g: %d icons", p, got)
		}
	}
}
