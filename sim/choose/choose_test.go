package choose

import (
	"context"
	"errors"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/site/axis"
	"arrayodds/array/thorough"
	"arrayodds/sim/answer"
	"arrayodds/sim/engine"
	"arrayodds/sim/sweep"
)

// yard is a site whose lives are quickly simulated: constant rates, exponential repair.
const yard = `service_life = "5 y"
currency = "EUR"
[[cameras]]
label = "Gate"
count = 30
bitrate = "6 Mbit/s"
retention = "30 d"
[[drives]]
label = "8 TB"
capacity = "8 TB"
life = { afr = { low = "0.8 %", likely = "1.5 %", high = "6 %" } }
transfer = "200 MB/s"
price = 180
[[drives]]
label = "18 TB"
capacity = "18 TB"
life = { afr = { low = "0.8 %", likely = "1.5 %", high = "6 %" } }
transfer = "250 MB/s"
price = 390
[[choices]]
label = "today"
drive = "18 TB"
layout = "RAID 5"
drives = 6
[care]
restore = { exponential = "48 h" }
[hazards]
common_cause = { per_year = 0.0005, each_drive = 0.3 }
[recorder]
price = 1000
bays = 16
power = { failures_per_year = 0.05, restore = "48 h", redundant = false }
[goal]
loss_chance = "1 in 1 000"
OPTIONS`

const options = `
[[options]]
label = "Faster technician"
per_year = 100
set = { "care.restore" = "{ exponential = \"12 h\" }" }
excludes = ["Slower one"]
[[options]]
label = "Slower one"
set = { "care.restore" = "{ exponential = \"96 h\" }" }
[[options]]
label = "Surge protection"
price = 150
set = { "hazards.common_cause.per_year" = 0.0001 }
[[options]]
label = "Two supplies"
price = 240
set = { "recorder.power.redundant" = "true" }
`

func opened(t *testing.T, text string) *axis.Source {
	t.Helper()
	s, err := axis.Open(strings.NewReader(text), "yard.toml")
	if err != nil {
		t.Fatal(err)
	}
	return s
}

func find(t *testing.T, text string, accuracy float64) Found {
	t.Helper()
	f, err := Find(context.Background(), Request{Source: opened(t, text), Spares: 1, Options: engine.Options{Seed: 1, Accuracy: accuracy, MaxTrials: 1e6}})
	if err != nil {
		t.Fatal(err)
	}
	return f
}

// Every design simulated to 1 % from other streams has the same front, up to intervals:
// what is on the front of the race no design beats for sure, and what is not is beaten as
// far as its interval can tell.
func TestFrontByBruteForce(t *testing.T) {
	t.Parallel()
	// Half of the options, which make a quarter of the designs; with -calibrate all.
	text, least := strings.Replace(yard, "OPTIONS", options[strings.Index(options, "[[options]]\nlabel = \"Surge"):], 1), 40
	if *thorough.Calibrate {
		text, least = strings.Replace(yard, "OPTIONS", options, 1), 300
	}
	f := find(t, text, 0.05)
	if len(f.Designs) < least {
		t.Fatalf("%d designs", len(f.Designs))
	}
	s := &search{Request: Request{Source: opened(t, text)}}
	var err error
	if s.sets, err = sets(s.Source); err != nil {
		t.Fatal(err)
	}
	all := slices.Clone(f.Designs)
	var points []sweep.Point
	for _, d := range all {
		points = append(points, sweep.Point{Site: s.sets[d.set].file.Site, Choice: d.Choice})
	}
	series, err := sweep.Run(context.Background(), points, engine.Options{Seed: 77, Accuracy: 0.02, MaxTrials: 20000, Branching: true})
	if err != nil {
		t.Fatal(err)
	}
	for i := range all {
		x := series.Result(i)
		all[i].Loss, all[i].Missing, all[i].Replaced = x.LossChance, x.MissingClip, x.DrivesReplaced
		all[i].Cost = s.cost(all[i])
	}
	var every []int
	for i := range all {
		every = append(every, i)
	}
	possible := undominated(all, every, false)
	for i, d := range f.Designs {
		if d.Front && !slices.Contains(possible, i) {
			for j := range all {
				if j != i && beats(all[j], all[i], false) {
					t.Errorf("%s is on the front (%.0f, %v, missing %v), and by brute force (%v, missing %v) %s beats it (%.0f, %v, missing %v)", d.Choice.Label, d.Cost, d.Loss, d.Missing,
						all[i].Loss, all[i].Missing, all[j].Choice.Label, all[j].Cost, all[j].Loss, all[j].Missing)
				}
			}
		}
	}
	front := 0
	for _, i := range undominated(all, every, true) {
		front++
		d := all[i]
		if f.Designs[i].Front {
			continue
		}
		// Left out for a design that is as good as its equal.
		near := slices.ContainsFunc(f.Designs, func(o Design) bool {
			return o.Front && o.Cost <= d.Cost*1.01 && o.Loss.Low <= d.Loss.High*1.02 && (!o.Missing.Known() || o.Missing.Low <= d.Missing.High*1.02)
		})
		if !near {
			t.Errorf("%s is on the front by brute force (%v for %.0f), and nothing near it is on the race's", d.Choice.Label, d.Loss, d.Cost)
		}
	}
	if front < 5 {
		t.Errorf("a front of %d designs shows nothing", front)
	}
}

// The goal is met over the doubt, not only as entered; and nothing that is cheaper and was
// compared meets it.
func TestGoalIsMetOverTheDoubt(t *testing.T) {
	t.Parallel()
	accuracy := 0.05
	if !thorough.Asked() {
		accuracy = 0.1
	}
	f := find(t, strings.Replace(yard, "OPTIONS", options, 1), accuracy)
	if f.Recommended < 0 {
		t.Fatalf("nothing is recommended: %v", f.Says)
	}
	goal := f.Site.Goal.LossChance
	entered := false
	for i, o := range f.Finalists.Outcomes {
		risk := answer.Risk(o).Value
		if i < f.Recommended && risk <= goal && risk <= answer.Risk(f.Finalists.Outcomes[f.Recommended]).Value {
			t.Errorf("%s is cheaper, meets the goal and is as safe", o.Choice.Label)
		}
		entered = entered || i < f.Recommended && o.Result.LossChance.Value <= goal
		if i == f.Recommended && risk > goal {
			t.Errorf("%s is recommended at %g", o.Choice.Label, risk)
		}
	}
	if !entered {
		t.Error("no cheaper design meets the goal as entered: the site shows nothing")
	}
	if f.Today != "today" || len(f.Next) == 0 {
		t.Errorf("today %q, next %v", f.Today, f.Next)
	}
	for _, d := range f.Designs {
		var names []string
		for _, o := range d.Options {
			names = append(names, o.Label)
		}
		if slices.Contains(names, "Slower one") && slices.Contains(names, "Faster technician") {
			t.Errorf("%s takes what excludes each other", d.Choice.Label)
		}
	}
}

func TestErrors(t *testing.T) {
	t.Parallel()
	plain := strings.Replace(yard, "OPTIONS", "", 1)
	_, err := Find(context.Background(), Request{Source: opened(t, strings.Replace(plain, "[goal]\nloss_chance = \"1 in 1 000\"", "", 1)), Options: engine.Options{Accuracy: 0.05, MaxTrials: 1000}})
	if none := (NoGoalError{}); !errors.As(err, &none) {
		t.Errorf("without a goal: %v", err)
	}
	nothing := NothingError{}
	_, err = Find(context.Background(), Request{Source: opened(t, strings.NewReplacer("price = 180", "", "price = 390", "").Replace(plain)), Options: engine.Options{Accuracy: 0.05, MaxTrials: 1000}})
	if !errors.As(err, &nothing) || !nothing.Priceless {
		t.Errorf("without prices: %v", err)
	}
	_, err = Find(context.Background(), Request{Source: opened(t, strings.Replace(plain, "count = 30", "count = 3000", 1)), Options: engine.Options{Accuracy: 0.05, MaxTrials: 1000}})
	if !errors.As(err, &nothing) || nothing.Priceless {
		t.Errorf("too much footage: %v", err)
	}
	for _, set := range []string{`{ "care.respones" = "8 h" }`, `{ "choices.today.drives" = 5 }`, `{ "care.notice" = "8 TB" }`} {
		_, err := axis.Open(strings.NewReader(plain+"[[options]]\nlabel = \"x\"\nset = "+set+"\n"), "yard.toml")
		if err == nil || !strings.Contains(err.Error(), "yard.toml:") || !strings.Contains(err.Error(), "options.x.set.") {
			t.Errorf("%s: %v", set, err)
		}
	}
}

// What money buys for a design of today that has no price is not known, and not told.
func TestTodayWithoutAPrice(t *testing.T) {
	t.Parallel()
	few := options[strings.Index(options, "[[options]]\nlabel = \"Surge"):]
	text := strings.NewReplacer("OPTIONS", few, "price = 390", "").Replace(yard)
	f, err := Find(context.Background(), Request{Source: opened(t, text), Bays: 10, Spares: 1, Options: engine.Options{Seed: 1, Accuracy: 0.1, MaxTrials: 1e5}})
	if err != nil || f.Today != "today" || len(f.Next) != 0 || len(f.Designs) == 0 {
		t.Errorf("%v: for %q %+v, of %d designs", err, f.Today, f.Next, len(f.Designs))
	}
	if !thorough.Asked() {
		return // with a price there are some in TestGoalIsMetOverTheDoubt too
	}
	text = strings.Replace(yard, "OPTIONS", few, 1)
	if f, err = Find(context.Background(), Request{Source: opened(t, text), Bays: 10, Spares: 1, Options: engine.Options{Seed: 1, Accuracy: 0.1, MaxTrials: 1e5}}); err != nil || len(f.Next) == 0 {
		t.Errorf("with a price: %v, %+v", err, f.Next)
	}
}
