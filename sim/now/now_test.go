package now

import (
	"context"
	"math"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"
	"arrayodds/sim/exact"
	"arrayodds/sim/simtest"
)

// question returns a question about a group of drives of constant rate, of which some
// are down, restored by an exponential law of that mean.
func question(level array.Level, drives, down int, afr, restore float64) Request {
	site, choice := simtest.NewChained(level, drives, afr, restore).Choice()
	nan := math.NaN()
	s := array.State{HourOfWeek: nan, SpareIn: nan, TechnicianIn: nan, Scrubbed: nan}
	for i := range drives {
		s.Drives = append(s.Drives, array.DriveState{Age: 20000, Down: i < down, DownFor: nan, RebuiltFor: nan})
	}
	return Request{Site: site, Choice: choice, State: s, Options: engine.Options{Seed: 1, Accuracy: 0.03, MaxTrials: 1e6, Workers: 1}}
}

// The answer against the exact chain that begins in the state: the chance before all
// drives run again, over 30 days and at hours between, within 4.5 standard errors; and
// when the drives run again against the exponential law of one restore.
func TestAnswerAgainstTheChain(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		level             array.Level
		tolerance, drives int
		down              int
		afr, restore      float64
	}{
		{array.RAID5, 1, 6, 1, 0.03, 48}, {array.RAID5, 1, 8, 1, 0.02, 12}, {array.RAID6, 2, 8, 1, 0.02, 48},
		{array.RAID6, 2, 12, 2, 0.05, 72}, {array.TripleParity, 3, 12, 2, 0.02, 36},
	} {
		q := question(c.level, c.drives, c.down, c.afr, c.restore)
		r, err := Glance(context.Background(), q)
		if err != nil {
			t.Fatal(err)
		}
		chain := exact.Chain{Drives: c.drives, Tolerance: c.tolerance, FailurePerHour: c.afr / unit.HoursPerYear, RestorePerHour: 1 / c.restore}
		if n := simtest.StandardErrors(r.BeforeWhole, chain.LossBeforeWhole(c.down, Month)); math.Abs(n) > 4.5 {
			t.Errorf("%+v: before whole %g, %.1f standard errors from the chain", c, r.BeforeWhole.Value, n)
		}
		if r.Exact == nil || math.Abs(r.Exact.Loss-chain.LossFrom(c.down, Month)) > 1e-12 {
			t.Errorf("%+v: exact %+v", c, r.Exact)
		}
		if len(r.Curve) != int(Month) {
			t.Fatalf("%d hours", len(r.Curve))
		}
		for _, hours := range []int{6, 24, 72, int(Month)} {
			p := r.Curve[hours-1]
			if p.Hours != float64(hours) {
				t.Errorf("hour %d is %g", hours, p.Hours)
			}
			if n := simtest.StandardErrors(p.Loss, chain.LossFrom(c.down, p.Hours)); math.Abs(n) > 4.5 {
				t.Errorf("%+v: by %d h %g ± %g, %.1f standard errors from the chain", c, hours, p.Loss.Value, p.Loss.Value*p.Loss.RelativeError, n)
			}
		}
		if c.down == 1 { // what follows further failures is rare
			for _, x := range []struct {
				e     interface{ Holds(float64) bool }
				share float64
			}{{r.Whole.Median, 0.5}, {r.Whole.Ninety, 0.9}} {
				if want := -math.Log(1-x.share) * c.restore; !x.e.Holds(want) {
					t.Errorf("%+v: all run after %+v in %g of the cases, want %g", c, x.e, x.share, want)
				}
			}
		}
	}
}

// withRebuilds turns a question into one with a response and rebuilds that recording
// bounds.
func withRebuilds(q Request) Request {
	q.Choice.Care.Restore = nil
	q.Choice.Care.Response = array.Fixed{Hours: 48}
	q.Choice.Care.RebuildShare = 0.3
	q.Site.Cameras = []array.Cameras{{Label: "gate", Count: 100, BitRate: 48e6, HoursPerDay: 24, Activity: 1, Retention: 72}, {Label: "yard", Count: 10, BitRate: 4e6, HoursPerDay: 24, Activity: 1, Retention: 72}}
	q.State.TechnicianIn = 40
	return q
}

// With one parity drive and one drive down, a loss is the failure of another within the
// wait and the rebuild: for exponential lives 1 − exp(−λ(n − 1)·hours), in closed form
// for every action, and so for its ratio.
func TestActionsAgainstTheClosedForm(t *testing.T) {
	t.Parallel()
	q := withRebuilds(question(array.RAID5, 6, 1, 0.03, 1))
	r, err := Ask(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	if r.Exact != nil {
		t.Errorf("the chain has no fixed waits, and there is %+v", r.Exact)
	}
	rate := 5 * 0.03 / unit.HoursPerYear
	within := func(wait, rebuild float64) float64 { return -math.Expm1(-rate * (wait + rebuild)) }
	if n := simtest.StandardErrors(r.BeforeWhole, within(40, r.RebuildHours)); math.Abs(n) > 4.5 {
		t.Errorf("before all run: %g, %.1f standard errors from %g", r.BeforeWhole.Value, n, within(40, r.RebuildHours))
	}
	seen := map[string]bool{}
	for _, a := range r.Actions {
		wait := 40.0
		if strings.HasPrefix(a.Name, "Get the new drive") {
			wait = 4
		}
		seen[strings.Fields(a.Name)[0]] = true
		// What follows once all run again is the same with and without, to a per cent.
		after := r.Loss.Value - r.BeforeWhole.Value
		want := (within(wait, a.RebuildHours) + after) / r.Loss.Value
		if math.Abs(a.Ratio.Value-want) > 0.03*want {
			t.Errorf("%s: what is left is %g (%g to %g), want %g", a.Name, a.Ratio.Value, a.Ratio.Low, a.Ratio.High, want)
		}
		if a.Loss.Value > r.Loss.Value*1.0001 {
			t.Errorf("%s makes %g of %g", a.Name, a.Loss.Value, r.Loss.Value)
		}
	}
	for _, name := range []string{"Get", "Let", "Record", "Stop"} {
		if !seen[name] {
			t.Errorf("no action %s: %v", name, seen)
		}
	}
	if r.Together == nil || r.Together.Ratio.Value > r.Actions[0].Ratio.Value*1.001 {
		t.Errorf("together %+v, the best alone %+v", r.Together, r.Actions[0])
	}
	for _, c := range r.Copies {
		if want := within(math.Min(c.Hours, 40+r.RebuildHours), 0); c.Hours < 40 && math.Abs(c.Loss.Value-want) > 0.05*want {
			t.Errorf("copy of %q in %g h: lost with %g, want %g", c.Label, c.Hours, c.Loss.Value, want)
		}
	}
}

// An array that more failed in than it stands is told so, with nothing simulated; one in
// which every drive runs is left alone.
func TestLostAndWhole(t *testing.T) {
	t.Parallel()
	r, err := Ask(context.Background(), question(array.RAID6, 8, 3, 0.02, 48))
	if err != nil || !r.Lost() || r.Trials != 0 || !strings.Contains(r.Says.Headline, "touch nothing") || len(r.Actions) > 0 {
		t.Errorf("%v, %+v", err, r.Says)
	}
	if !strings.Contains(strings.Join(r.Says.Do, " "), "specialist") {
		t.Errorf("no specialist: %q", r.Says.Do)
	}
	r, err = Ask(context.Background(), question(array.RAID6, 8, 0, 0.02, 48))
	if err != nil || r.Lost() || r.Says.Headline != "Every drive runs." || len(r.Actions) > 0 {
		t.Errorf("%v, %+v", err, r.Says)
	}
	r, err = Ask(context.Background(), question(array.JBOD, 4, 1, 0.02, 48))
	if err != nil || !strings.Contains(r.Says.Headline, "The others go on") {
		t.Errorf("%v, %+v", err, r.Says)
	}
}

// One seed gives the same answer for any number of workers.
func TestSameDigitsForAnyWorkers(t *testing.T) {
	t.Parallel()
	q := withRebuilds(question(array.RAID6, 8, 1, 0.02, 1))
	one, err := Ask(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	q.Options.Workers = 3
	three, err := Ask(context.Background(), q)
	if err != nil {
		t.Fatal(err)
	}
	if one.Loss != three.Loss || one.Curve[100] != three.Curve[100] || one.Actions[0] != three.Actions[0] || one.Whole != three.Whole {
		t.Errorf("%+v and %+v", one.Loss, three.Loss)
	}
}

// Drills are states with a drive down that the array stands, and the same for a seed.
func TestDrill(t *testing.T) {
	t.Parallel()
	q := withRebuilds(question(array.RAID6, 8, 0, 0.3, 1))
	for seed := range uint64(30) {
		opt := engine.Options{Seed: seed}
		s, err := Drill(context.Background(), q.Site, q.Choice, opt)
		if err != nil {
			t.Fatal(err)
		}
		if n := len(s.Down()); n < 1 || n > 2 || len(s.Drives) != 8 {
			t.Errorf("seed %d: %d down of %d", seed, n, len(s.Drives))
		}
		for i, d := range s.Drives {
			if d.Down && !(d.DownFor >= 0 && d.DownFor <= d.Age) || d.Rebuilding && !(d.Rebuilt >= 0 && d.Rebuilt <= 1 && d.RebuiltFor <= d.DownFor) {
				t.Errorf("seed %d: drive %d: %+v", seed, i+1, d)
			}
		}
		again, err := Drill(context.Background(), q.Site, q.Choice, opt)
		if err != nil || again.Down()[0] != s.Down()[0] || again.Drives[again.Down()[0]-1].DownFor != s.Drives[s.Down()[0]-1].DownFor {
			t.Errorf("seed %d: not the same again", seed)
		}
	}
}

func TestHours(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		hours float64
		want  string
	}{{0.01, "1 minute"}, {0.5, "30 minutes"}, {1, "1 hour"}, {14.4, "14 hours"}, {95, "95 hours"}, {120, "5 days"}, {100, "4 days"}} {
		if got := Hours(c.hours); got != c.want {
			t.Errorf("%g: %q, want %q", c.hours, got, c.want)
		}
	}
}
