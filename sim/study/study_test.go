package study

import (
	"context"
	"errors"
	"fmt"
	"math"
	"slices"
	"strings"
	"testing"

	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/exact"
)

// chained is a site of which the Markov chain knows every choice: constant rates,
// exponential restoring. The ranges serve the ranking.
const chained = `
name = "Chain"
service_life = "5 y"
[[cameras]]
label = "Lock"
count = 8
bitrate = "6 Mbit/s"
retention = "30 d"
[[drives]]
label = "4 TB"
capacity = "4 TB"
life = { afr = { low = "1 %", likely = "2 %", high = "4 %" } }
transfer = "200 MB/s"
price = 100
[[drives]]
label = "8 TB"
capacity = "8 TB"
life = { afr = "3 %" }
transfer = "200 MB/s"
[[choices]]
label = "five"
drive = "4 TB"
layout = "RAID 5"
drives = 5
[[choices]]
label = "six"
drive = "4 TB"
layout = "RAID 6"
drives = 6
[care]
restore = { exponential = { low = "12 h", likely = "48 h", high = "192 h" } }
`

// asked opens a text; choices are those of these places.
func asked(t *testing.T, text string, choices ...int) Request {
	t.Helper()
	s, err := axis.Open(strings.NewReader(text), "chain.toml")
	if err != nil {
		t.Fatal(err)
	}
	return Request{Source: s, Choices: choices, Options: engine.Options{Seed: 1, Accuracy: 0.03, MaxTrials: 1e6}}
}

func axisOf(t *testing.T, a Request, typed string, points int) *axis.Axis {
	t.Helper()
	x, err := a.Source.Axis(typed, points)
	if err != nil {
		t.Fatal(err)
	}
	return x
}

func chain(drives, tolerance int, afr, restore float64) float64 {
	return exact.Chain{Drives: drives, Tolerance: tolerance, FailurePerHour: afr / unit.HoursPerYear, RestorePerHour: 1 / restore}.LossBy(5 * unit.HoursPerYear)
}

// within says by how many standard errors an estimate is off.
func within(t *testing.T, what string, e estimate.Estimate, want float64) {
	t.Helper()
	if d := math.Abs(e.Value-want) / (e.RelativeError * e.Value); !(d < 4) {
		t.Errorf("%s: %+v, exact %g: %.1f standard errors apart", what, e, want, d)
	}
}

// Every value of one input, and every pair of two, against the chain; ratios too.
func TestOverAgreesWithTheChain(t *testing.T) {
	a := asked(t, chained, 0, 1)
	v := Variation{Request: a, Axes: []*axis.Axis{axisOf(t, a, "care.restore.exponential=12 h..192 h", 3), axisOf(t, a, "drives.4 TB.life.afr=1 %,4 %", 2)}, Against: 1}
	got, err := Vary(context.Background(), v)
	if err != nil {
		t.Fatal(err)
	}
	if got.Against != "six" || len(got.Inputs) != 2 || got.Inputs[0].Own != 48 || got.Inputs[1].Own != 2 {
		t.Fatalf("%+v", got.Inputs)
	}
	for k, shape := range [][2]int{{5, 1}, {6, 2}} {
		own := chain(shape[0], shape[1], 0.02, 48)
		within(t, "own", got.Curves[k].Own, own)
		for i, p := range got.Curves[k].Points {
			want := chain(shape[0], shape[1], []float64{0.01, 0.04}[i/3], got.Inputs[0].Values[i%3])
			what := fmt.Sprintf("%s, point %d", got.Curves[k].Choice.Label, i)
			within(t, what, p.Loss, want)
			within(t, what+" to own", p.ToOwn, want/own)
			if k == 0 {
				within(t, what+" against", p.Against, want/chain(6, 2, []float64{0.01, 0.04}[i/3], got.Inputs[0].Values[i%3]))
			} else if !math.IsNaN(p.Against.Value) {
				t.Errorf("%s is held against itself: %+v", what, p.Against)
			}
		}
	}
}

// Another drive: as many as hold the 15.552 TB of 8 cameras of 6 Mbit/s in 30 days
// (SI arithmetic), and no figures where the recorder has not the bays.
func TestOverResizes(t *testing.T) {
	a := asked(t, strings.Replace(chained, "RAID 6\"\ndrives = 6", "RAID 6\"\ndrives = 5", 1)+"[recorder]\nbays = 5\n", 0, 1)
	got, err := Vary(context.Background(), Variation{Request: a, Axes: []*axis.Axis{axisOf(t, a, "choices.*.drive=8 TB,4 TB", 2)}, Against: -1})
	if err != nil {
		t.Fatal(err)
	}
	for k, want := range [][2]int{{3, 5}, {4, 6}} {
		for i, p := range got.Curves[k].Points {
			if p.Drives != want[i] || (p.Absent == "") != (want[i] <= 5) {
				t.Errorf("%s: %+v, want %d drives", got.Curves[k].Choice.Label, p, want[i])
			}
		}
	}
	if p := got.Curves[1].Points[1]; !strings.Contains(p.Absent, "5 bays") || !math.IsNaN(p.Loss.Value) {
		t.Errorf("%+v", p)
	}
	if p := got.Curves[0].Points[0]; !math.IsNaN(p.Purchase) || got.Curves[0].Points[1].Purchase != 500 {
		t.Errorf("%+v", got.Curves[0].Points)
	}
}

// The solved restoring time and rate are those at which the chain has the goal.
func TestBreakEvenAgreesWithTheChain(t *testing.T) {
	a := asked(t, chained, 0, 1)
	v := Variation{Request: a, Axes: []*axis.Axis{axisOf(t, a, "care.restore.exponential=4 h..600 h", 5)}, Against: -1}
	solve := func(goal Target) *BreakEven {
		v.Target = &goal
		found, err := v.solve(context.Background())
		if err != nil {
			t.Fatal(err)
		}
		return found
	}
	found := solve(Target{Chance: 1e-4})
	for k, shape := range [][2]int{{5, 1}, {6, 2}} {
		r := found.Rows[k]
		if math.IsNaN(r.Value.Value) {
			// Double parity does not come to 1 in 10 000 within the range.
			if p := chain(shape[0], shape[1], 0.02, 600); p > 1e-4 || !strings.HasPrefix(r.Words, "safer over the whole range") {
				t.Errorf("%+v, though the chain has %g at the high end", r, p)
			}
			continue
		}
		if low, high := chain(shape[0], shape[1], 0.02, r.Value.Low), chain(shape[0], shape[1], 0.02, r.Value.High); !(low < 1.0001e-4 && high > 0.9999e-4) {
			t.Errorf("%s: %+v, where the chain has %g to %g", r.Choice.Label, r.Value, low, high)
		}
	}
	v.Axes[0] = axisOf(t, a, "drives.4 TB.life.afr=0.01 %..8 %", 5)
	found = solve(Target{As: 1})
	r, want := found.Rows[0], chain(6, 2, 0.02, 48)
	if len(found.Rows) != 1 || !(chain(5, 1, r.Value.Low/100, 48) < want && want < chain(5, 1, r.Value.High/100, 48)) {
		t.Errorf("%+v, where the chain has %g to %g of %g", found.Rows, chain(5, 1, r.Value.Low/100, 48), chain(5, 1, r.Value.High/100, 48), want)
	}
}

// Low and high against the chain.
func TestRankingAgreesWithTheChain(t *testing.T) {
	t.Parallel()
	for k, shape := range [][2]int{{5, 1}, {6, 2}} {
		got, err := Rank(context.Background(), asked(t, chained, k), false)
		if err != nil {
			t.Fatal(err)
		}
		c := got.Choices[0]
		within(t, "likely", c.Likely, chain(shape[0], shape[1], 0.02, 48))
		by := map[string]RankedInput{}
		for i, in := range c.Inputs {
			by[in.Path] = in
			if i > 0 && in.Swing.Value > c.Inputs[i-1].Swing.Value {
				t.Errorf("%s stands behind %s", in.Path, c.Inputs[i-1].Path)
			}
		}
		if _, there := by["drives.8 TB.life.afr"]; there {
			t.Error("a drive that no choice uses is ranked")
		}
		rate, restore := by["drives.4 TB.life.afr"], by["care.restore.exponential"]
		if !rate.Given || !restore.Given || rate.Low != "1 %" || restore.High != "192 h" {
			t.Fatalf("%+v", c.Inputs)
		}
		within(t, "low rate", rate.AtLow, chain(shape[0], shape[1], 0.01, 48))
		within(t, "high rate", rate.AtHigh, chain(shape[0], shape[1], 0.04, 48))
		within(t, "swing", rate.Swing, chain(shape[0], shape[1], 0.04, 48)/chain(shape[0], shape[1], 0.01, 48))
		within(t, "long restoring", restore.AtHigh, chain(shape[0], shape[1], 0.02, 192))
	}
}

func TestReplayStudy(t *testing.T) {
	got, err := TraceLives(context.Background(), asked(t, strings.Replace(chained, "restore = {", "response = {", 1), 0), 2, true)
	if err != nil {
		t.Fatal(err)
	}
	for _, a := range got.Assumptions {
		if strings.HasPrefix(a.Path, "choices.six") || strings.HasPrefix(a.Path, "drives.8 TB") {
			t.Errorf("%s is of no account", a.Path)
		}
	}
	if !slices.ContainsFunc(got.Assumptions, func(a site.Assumption) bool { return a.Path == "choices.five.layout" }) {
		t.Error("the choice's own layout is not listed")
	}
	if len(got.Lives) != 2 || !got.Lives[0].Lost || !got.Lives[1].Lost || got.Slow.Capacities[got.Slow.OwnSize] != 4e12 || got.Slow.Waits[got.Slow.OwnWait] != 49 {
		t.Errorf("%d lives, own size %d of %v, own wait %d of %v", len(got.Lives), got.Slow.OwnSize, got.Slow.Capacities, got.Slow.OwnWait, got.Slow.Waits)
	}
}

// What cannot be is refused with its place, and too much is too much.
func TestRefusals(t *testing.T) {
	t.Parallel()
	a := asked(t, strings.Replace(chained, `restore = { exponential = { low = "12 h", likely = "48 h", high = "192 h" } }`, `response = { lognormal = { median = "24 h", p90 = "72 h" } }`, 1), 0)
	a.Options.Accuracy, a.Options.MaxTrials = 1, 256 // what comes out is not looked at
	v := Variation{Request: a, Against: -1, Axes: []*axis.Axis{axisOf(t, a, "care.response.lognormal.median=1 h..60 h", 4), axisOf(t, a, "care.response.lognormal.p90=61 h..200 h", 4)}}
	if _, err := Vary(context.Background(), v); err != nil {
		t.Error(err)
	}
	v.Axes[1] = axisOf(t, a, "care.response.lognormal.p90=61 h,62 h", 4)
	v.Axes[0] = axisOf(t, a, "care.response.lognormal.median=1 h..70 h", 4)
	_, err := Vary(context.Background(), v)
	if errs := (site.Errors)(nil); !errors.As(err, &errs) || !strings.Contains(err.Error(), "p90") {
		t.Errorf("%v", err)
	}
	v.Axes = []*axis.Axis{axisOf(t, a, "care.notice=1 h..9 h", 500), axisOf(t, a, "care.restock=1 h..9 h", 500)}
	if _, err := Vary(context.Background(), v); err == nil || !strings.Contains(err.Error(), "250000 pairs") {
		t.Errorf("%v", err)
	}
}

// What a resize does to the groups is said; a choice that an input does not touch is
// known; and a value that was found has its words.
func TestSweepWords(t *testing.T) {
	t.Parallel()
	wide := strings.Replace(chained, "drives = 5", "drives = 8", 1)
	a := asked(t, strings.Replace(wide, "count = 8", "count = 24", 1), 0)
	got, err := Vary(context.Background(), Variation{Request: a, Against: -1, Resize: true, Axes: []*axis.Axis{axisOf(t, a, "cameras.Lock.retention=15 d..45 d", 3)}})
	if err != nil {
		t.Fatal(err)
	}
	// By hand: 24 cameras of 6 Mbit/s for 45 days are 70.0 TB, 18 drives' worth of 4 TB,
	// which in groups of at most 7 + 1 are 3 groups of 6 + 1; 30 days are 46.7 TB, 12 drives'
	// worth, 2 groups of 6 + 1; and 15 days 23.3 TB, 6 + 1 in one.
	for i, want := range []int{1, 2, 3} {
		if p := got.Curves[0].Points[i]; p.Groups != want || p.Drives != 7*want {
			t.Errorf("%d drives in %d groups, want %d", p.Drives, p.Groups, want)
		}
	}
	if text := strings.Join(got.Notes, " "); !strings.Contains(text, `"five" has 1 group in the site file, and 14 drives in 2 groups at 30 d and 21 drives in 3 groups at 45 d.`) {
		t.Errorf("%s", text)
	}
	b := asked(t, chained, 0, 1)
	got, err = Vary(context.Background(), Variation{Request: b, Against: -1, Axes: []*axis.Axis{axisOf(t, b, "drives.8 TB.life.afr=1 %..4 %", 3)}})
	if err != nil {
		t.Fatal(err)
	}
	if !got.Curves[0].Untouched() || got.Inputs[0].Called != "yearly failure rate of the 8 TB drives" {
		t.Errorf("the drives of another choice touch this one: %+v", got.Curves[0].Points)
	}
	// By a resize it has other drives than in the site file, and at each value the same.
	more := asked(t, strings.Replace(chained, "drives = 6", "drives = 8", 1), 0, 1)
	got, err = Vary(context.Background(), Variation{Request: more, Against: -1, Resize: true, Axes: []*axis.Axis{axisOf(t, more, "drives.8 TB.life.afr=1 %..4 %", 3)}})
	if err != nil {
		t.Fatal(err)
	}
	if c := got.Curves[1]; !c.Untouched() || c.Points[0].ToOwn.Value == 1 {
		t.Errorf("%+v", c.Points)
	}
	got, err = Vary(context.Background(), Variation{Request: b, Against: -1, Target: &Target{Chance: 1e-3}, Axes: []*axis.Axis{axisOf(t, b, "drives.4 TB.life=x0.1..x10", 5)}})
	if err != nil {
		t.Fatal(err)
	}
	if got.Curves[0].Untouched() || got.Inputs[0].Called != "failures of the 4 TB drives" || !slices.ContainsFunc(got.Notes, func(n string) bool { return strings.Contains(n, "×4 is four times as many") }) {
		t.Errorf("%+v, %q", got.Inputs[0], got.Notes)
	}
	for _, r := range got.BreakEven.Rows {
		if !math.IsNaN(r.Value.Value) && !strings.Contains(r.Words, "safer than that below it, riskier above: ") {
			t.Errorf("a value of %s has the words %q", r.Text, r.Words)
		}
	}
}
