package choose

import (
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/charts/chartstest"
	"arrayodds/charts/page"
	"arrayodds/sim/choose"
	"arrayodds/sim/estimate"
)

// searched is an invented search: the finalists are the sample's choices, and of the
// designs one is on the front.
func searched() found {
	f := choose.Found{Site: chartstest.Sample().Site, Seed: 1, Begun: []int{2, 1}, Compared: 9, Finalists: chartstest.Sample(), Recommended: 4, RunnerUp: 5,
		Says: []string{"double parity: the cheapest here that meets the goal."}, Today: "8 x 12 TB, single parity",
		Next: []choose.NextMoney{{Label: "Surge protection", Cost: 200, Spared: 3, Ratio: estimate.Exact(0.5)}}}
	f.Site.Goal = &array.Goal{LossChance: 1e-3}
	f.Finalists.Site.Goal = f.Site.Goal
	first, second := f.Finalists.Outcomes[4].Choice, f.Finalists.Outcomes[2].Choice
	f.Designs = []choose.Design{
		{Choice: second, Loss: chartstest.Around(1.31e-3, 5e-5), Missing: chartstest.Around(1e-4, 1e-6), Cost: 5000},
		{Choice: first, Loss: chartstest.Around(4.2e-7, 2e-8), Missing: chartstest.Around(1e-5, 1e-7), Cost: 6000, Front: true},
	}
	return found{f}
}

func TestWhatThePageSays(t *testing.T) {
	t.Parallel()
	chartstest.CheckPage(t, func() page.Contents { return searched().contents() },
		"Of 2 designs, which is the cheapest that is safe enough for the footage of 44 cameras?",
		"double parity: the cheapest here that meets the goal.",
		"The rounds of the race began with 2 and 1 designs, and 9 were held against the goal",
		"money buys most as: Surge protection for 200 EUR: 3.0 fewer of 10 000 sites lose footage, 1.50 for each 100.",
		"recommended", "wider than customary", "RAID is no backup", "local law on retention and privacy",
	)
}

// Each design is a dot at its cost and its chance, those of the front apart; each finalist
// has its number.
func TestPoints(t *testing.T) {
	t.Parallel()
	f := searched()
	o := chartstest.Decode(t, f.charts()[0])
	o.One(t, "scatter", "other designs").CheckItems(t, []float64{5000, math.Log10(1.31e-3)})
	o.One(t, "scatter", "the front").CheckItems(t, []float64{6000, math.Log10(4.2e-7)})
	out := f.Finalists.Outcomes[4]
	point := o.One(t, "scatter", "5 · 8 x 12 TB, double parity")
	point.CheckItems(t, []float64{out.CostOfLife(f.Site).Total().Value, math.Log10(4.2e-7)})
	if point.Items[0].Label != "5" || point.Hollow {
		t.Errorf("numbered %q, hollow %v", point.Items[0].Label, point.Hollow)
	}
	if single := o.One(t, "scatter", "3 · 8 x 12 TB, single parity"); !single.Hollow {
		t.Error("what misses the goal is filled")
	}
}

func TestLabelsAreText(t *testing.T) {
	t.Parallel()
	f := searched()
	f.Site.Name, f.Today, f.Next[0].Label = chartstest.Hostile, chartstest.Hostile, chartstest.Hostile
	for i := range f.Finalists.Outcomes {
		f.Finalists.Outcomes[i].Choice.Label = chartstest.Hostile
	}
	for i := range f.Designs {
		f.Designs[i].Choice.Label = chartstest.Hostile
	}
	chartstest.CheckNoMarkup(t, f.contents())
	for _, c := range f.charts() {
		if strings.ContainsAny(string(c.Options), "<>&") {
			t.Errorf("options of %q hold markup", c.ID)
		}
	}
}
