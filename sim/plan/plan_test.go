package plan

import (
	"context"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/site/axis"
	"arrayodds/sim/engine"
	"arrayodds/sim/exact"
	"arrayodds/sim/study"

	"gonum.org/v1/gonum/stat/distuv"
)

// wharf has constant rates and exponential repairs, so that the exact chain solves it,
// and round figures.
const wharf = `name = "Wharf"
service_life = "5 y"
currency = "EUR"
[[cameras]]
label = "Gate"
count = 20
bitrate = "4 Mbit/s"
retention = "30 d"
[[drives]]
label = "8 TB"
capacity = "8 TB"
life = { afr = "2 %" }
transfer = "200 MB/s"
price = 180
power = "8 W"
weight = "700 g"
[[choices]]
label = "six"
drive = "8 TB"
layout = "RAID 5"
drives = 6
hot_spares = 0
[care]
restore = { exponential = "48 h" }
[recorder]
price = 1000
bays = 8
idle_power = "52 W"
licences = { included = 4, each = 45 }
rack_units = 2
weight = "14 kg"
rails = 50
power_factor = 0.8
power = { failures_per_year = 0.05, restore = "48 h", redundant = true }
mains = { outages_per_year = 2, mean = "1 h", ups_bridges = "30 min" }
numbering = { columns = 4, first = "bottom right", runs = "down", from = 0 }
[build]
batches = 3
ups = { rated = "200 W", load = ["50 W", "200 W"], lasts = ["2 h", "30 min"] }
[goal]
loss_chance = "1 in 100"
`

// made returns the plan of the first choice of a site, in which texts were replaced.
func made(t *testing.T, text string, replaced ...string) Plan {
	t.Helper()
	p, err := planned(t, text, replaced...)
	if err != nil {
		t.Fatal(err)
	}
	return p
}

func planned(t *testing.T, text string, replaced ...string) (Plan, error) {
	t.Helper()
	for i := 0; i < len(replaced); i += 2 {
		if !strings.Contains(text, replaced[i]) {
			t.Fatalf("the site has no %q", replaced[i])
		}
	}
	source, err := axis.Open(strings.NewReader(strings.NewReplacer(replaced...).Replace(text)), "wharf.toml")
	if err != nil {
		t.Fatal(err)
	}
	return Make(context.Background(), study.Request{Source: source, Choices: []int{0}, Options: engine.Options{Seed: 1, Accuracy: 0.02, MaxTrials: 1e6, Workers: 1}})
}

// The sums, weights and watts of the wharf by hand: 1 000 for the recorder, 50 for its
// rails, 6 + 1 drives at 180, 16 licences at 45; 14 kg and 6 × 0.7 kg; 52 W and 6 × 8 W,
// each watt 3.412142 BTU/h.
func TestPartsByHand(t *testing.T) {
	t.Parallel()
	p := made(t, wharf).Parts
	if want := 1000.0 + 50 + 7*180 + 16*45; p.Sum != want || p.ShelfSpares != 1 {
		t.Errorf("%g with %d on the shelf, want %g: %+v", p.Sum, p.ShelfSpares, want, p.Lines)
	}
	for _, c := range []struct {
		what      string
		got, want float64
	}{{"weight", p.Weight, 18.2}, {"drives", p.Drives, 4.2}, {"watts", p.Watts, 100}, {"heat", p.Heat, 341.2142}} {
		if math.Abs(c.got-c.want) > 1e-4*c.want {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
	if !slices.Equal(p.Unpriced, []string{"UPS"}) {
		t.Errorf("without a price: %q", p.Unpriced)
	}
	if !strings.Contains(p.Lifting, "two people lift it") {
		t.Errorf("18.2 kg: %s", p.Lifting)
	}
	if p := made(t, wharf, `weight = "14 kg"`, `weight = "13 kg"`).Parts; strings.Contains(p.Lifting, "two people lift it") {
		t.Errorf("17.2 kg: %s", p.Lifting)
	}
}

// What the site file does not give is not known, and nothing is made up for it.
func TestBlanks(t *testing.T) {
	t.Parallel()
	bare := wharf[:strings.Index(wharf, "[recorder]")]
	p := made(t, bare, "price = 180\n", "", `power = "8 W"`, "")
	if !math.IsNaN(p.Parts.Weight) || !math.IsNaN(p.Parts.Watts) || !math.IsNaN(p.Power.RatingVA) || p.Parts.Priced || p.Parts.Units != 0 {
		t.Errorf("%+v %+v", p.Parts, p.Power)
	}
	if !p.Bays.Guessed || p.Calendar.Renew.Goal {
		t.Errorf("numbering guessed: %v; a goal: %v", p.Bays.Guessed, p.Calendar.Renew.Goal)
	}
	blanks := 0
	for _, s := range p.Settings {
		if s.Value == "" {
			blanks++
		}
	}
	if blanks < 5 {
		t.Errorf("%d settings are left to fill in: %+v", blanks, p.Settings)
	}
}

// The battery by its arithmetic: 100 W at a power factor of 0.8 are 125 VA, a quarter
// more 125 W and 156.25 VA; half an hour of it 50 Wh, ÷ 0.85 ÷ 0.8 73.53 Wh. The table
// gives, halfway between 50 and 200 W on a logarithmic scale, 1 h new and 0.8 h aged. An
// exponential outage of mean 1 h lasts half an hour with the chance exp(−0.5).
func TestPowerByHand(t *testing.T) {
	t.Parallel()
	w := made(t, wharf).Power
	for _, c := range []struct {
		what      string
		got, want float64
	}{
		{"VA", w.VoltAmperes, 125}, {"rating W", w.RatingW, 125}, {"rating VA", w.RatingVA, 156.25}, {"Wh", w.BatteryWh, 73.529412},
		{"run time", w.RunTime, 1}, {"aged", w.AgedRunTime, 0.8}, {"longer", w.Longer, 0.60653066}, {"kWh", w.KWhPerYear, 876},
	} {
		if math.Abs(c.got-c.want) > 1e-7*c.want {
			t.Errorf("%s: %g, want %g", c.what, c.got, c.want)
		}
	}
	if !w.Carries {
		t.Errorf("0.8 h is enough for 0.5 h: %q", w.Words)
	}
	for _, short := range [][2]string{{`rated = "200 W"`, `rated = "120 W"`}, {`["2 h", "30 min"]`, `["1 h", "15 min"]`}, {`load = ["50 W", "200 W"]`, `load = ["50 W", "99 W"]`}} {
		w := made(t, wharf, short[0], short[1]).Power
		if w.Carries || !strings.Contains(strings.Join(w.Words, " "), "IT IS NOT ENOUGH") {
			t.Errorf("%s is taken for enough: %q", short[1], w.Words)
		}
	}
}

// The risk of each year is that of the exact chain, where there was no loss before; the
// intervals of ten years cover it but for one or two.
func TestYearlyRisksAgainstTheChain(t *testing.T) {
	t.Parallel()
	p := made(t, wharf)
	chain := exact.Chain{Drives: 6, Tolerance: 1, FailurePerHour: 0.02 / 8760, RestorePerHour: 1.0 / 48, DegradedFactor: 1}
	before, missed := 0.0, 0
	for _, y := range p.Calendar.Years {
		by := chain.LossBy(8760 * float64(y.Number))
		want := (by - before) / (1 - before)
		before = by
		if !y.Risk.Holds(want) {
			missed++
		}
		if math.Abs(y.Risk.Value/want-1) > 0.05 {
			t.Errorf("year %d: %+v, chain %g", y.Number, y.Risk, want)
		}
	}
	if len(p.Calendar.Years) != 10 || missed > 2 {
		t.Errorf("%d of %d years beyond their intervals", missed, len(p.Calendar.Years))
	}
}

// A drive alone is lost when it fails. By gonum's Weibull law the year in which that
// risk comes above what the goal allows each year is known.
func TestRenewalByTheWeibullLaw(t *testing.T) {
	t.Parallel()
	law := distuv.Weibull{K: 3, Lambda: 120000}
	goal := 0.02 // of 5 years: a year may have 1 − 0.98^(1/5)
	allowed := 1 - math.Pow(1-goal, 0.2)
	want := 0
	for year := 1; year <= 10 && want == 0; year++ {
		from, to := 8760*float64(year-1), 8760*float64(year)
		if 1-law.Survival(to)/law.Survival(from) > allowed {
			want = year
		}
	}
	p := made(t, wharf, `life = { afr = "2 %" }`, `life = { shape = 3, scale = "120000 h" }`, `"RAID 5"`, `"JBOD"`, "drives = 6", "drives = 1", "1 in 100", "0.02")
	got := p.Calendar.Renew
	if want < 2 || got.First != want || got.Sure != want || math.Abs(p.Calendar.Allowance-allowed) > 1e-12 {
		t.Errorf("%+v, allowed %g, want year %d and %g", got, p.Calendar.Allowance, want, allowed)
	}
	if p := made(t, wharf, `"RAID 5"`, `"RAID 6"`); p.Calendar.Renew.First != 0 || p.Calendar.Renew.Sure != 0 {
		t.Errorf("constant rates far below the goal: %+v", p.Calendar.Renew)
	}
	if p := made(t, wharf, `"RAID 5"`, `"JBOD"`); p.Calendar.Renew.Sure != 1 {
		t.Errorf("a JBOD of 2 %% a year against 1 in 100: %+v", p.Calendar.Renew)
	}
}

// What comes every so many hours, counted by hand.
func TestDueWithin(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		every, from, to float64
		want            int
	}{{1, 0, 1, 1}, {1, 4, 5, 0}, {0.5, 0, 1, 2}, {0.5, 4, 5, 1}, {4, 3, 4, 1}, {4, 4, 5, 0}, {0.3, 0, 1, 3}, {0.3, 1, 2, 3}} {
		if got := dueWithin(c.every, c.from, c.to, 5); got != c.want {
			t.Errorf("every %g within %g to %g of 5: %d, want %d", c.every, c.from, c.to, got, c.want)
		}
	}
}

// The same seed gives the same plan for any number of workers, another one another.
func TestWorkers(t *testing.T) {
	t.Parallel()
	of := func(seed uint64, workers int) Plan {
		source, err := axis.Open(strings.NewReader(wharf), "wharf.toml")
		if err != nil {
			t.Fatal(err)
		}
		p, err := Make(context.Background(), study.Request{Source: source, Choices: []int{0}, Options: engine.Options{Seed: seed, Accuracy: 0.05, MaxTrials: 1e5, Workers: workers}})
		if err != nil {
			t.Fatal(err)
		}
		return p
	}
	a, b, c := of(1, 1), of(1, 3), of(2, 1)
	if fmt.Sprint(a.Calendar) != fmt.Sprint(b.Calendar) || a.Bays.Gain != b.Bays.Gain || a.Parts.Enough != b.Parts.Enough {
		t.Error("the digits depend on the workers")
	}
	if a.Bays.Gain == c.Bays.Gain || a.Calendar.Years[0] == c.Calendar.Years[0] {
		t.Error("they do not depend on the seed")
	}
}

// A plan that is called off ends.
func TestCancelled(t *testing.T) {
	t.Parallel()
	source, err := axis.Open(strings.NewReader(wharf), "wharf.toml")
	if err != nil {
		t.Fatal(err)
	}
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Make(ctx, study.Request{Source: source, Choices: []int{0}, Options: engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 1e6}}); err != context.Canceled {
		t.Errorf("%v", err)
	}
}
