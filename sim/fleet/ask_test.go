package fleet

import (
	"context"
	"fmt"
	"math"
	"slices"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
	"arrayodds/sim/exact"
	"arrayodds/sim/model"
	"arrayodds/sim/now"
	"arrayodds/sim/simtest"
)

// chained returns an array of drives of constant rate, of which so many are down, restored
// by an exponential law: what the Markov chain knows.
func chained(name string, level array.Level, drives, down int, afr, restore float64) Array {
	site, choice := simtest.NewChained(level, drives, afr, restore).Choice()
	nan := math.NaN()
	s := array.State{HourOfWeek: nan, SpareIn: nan, TechnicianIn: nan, Scrubbed: nan}
	for i := range drives {
		s.Drives = append(s.Drives, array.DriveState{Age: 20000, Down: i < down, DownFor: nan, RebuiltFor: nan})
	}
	return Array{Name: name, SiteAt: name + ".toml", Site: site, Choice: choice, State: s}
}

func ask(t testing.TB, workers int, arrays ...Array) Result {
	t.Helper()
	return askTo(t, DefaultAccuracy, workers, arrays...)
}

func askTo(t testing.TB, accuracy float64, workers int, arrays ...Array) Result {
	t.Helper()
	opt := usual()
	opt.Workers, opt.Accuracy = workers, accuracy
	r, err := Ask(context.Background(), Request{Name: "made", Arrays: arrays, Options: opt, replicates: years(leastReplicates)})
	if err != nil {
		t.Fatal(err)
	}
	return r
}

// years returns how many replicates of the year to simulate: with make thorough those of
// the program, else so many.
func years(few int) int {
	if !thorough.Asked() {
		return few
	}
	return 0
}

// coarse is the accuracy of tests in which it does not matter: as usual with make
// thorough, else less.
func coarse() float64 {
	if !thorough.Asked() {
		return quietAccuracy
	}
	return DefaultAccuracy
}

// byName returns the arrays of a result by their names.
func byName(r Result) map[string]Standing {
	all := map[string]Standing{}
	for _, s := range r.Arrays {
		all[s.Name] = s
	}
	return all
}

// chainedFleet is a fleet of which the exact chain that begins in each state knows every
// chance; they lie a factor of two and more apart.
func chainedFleet() (arrays []Array, truth map[string]float64) {
	truth = map[string]float64{}
	for _, c := range []struct {
		level                   array.Level
		tolerance, drives, down int
		afr, restore            float64
	}{
		{array.RAID5, 1, 6, 1, 0.03, 48}, {array.RAID5, 1, 8, 1, 0.02, 12}, {array.RAID6, 2, 8, 1, 0.02, 48},
		{array.RAID6, 2, 12, 2, 0.05, 72}, {array.TripleParity, 3, 12, 2, 0.02, 36},
		{array.RAID5, 1, 8, 0, 0.04, 72}, {array.RAID6, 2, 8, 0, 0.02, 48}, {array.RAID6, 2, 10, 0, 0.05, 96},
	} {
		name := fmt.Sprintf("a%d", len(arrays))
		arrays = append(arrays, chained(name, c.level, c.drives, c.down, c.afr, c.restore))
		truth[name] = exact.Chain{
			Drives: c.drives, Tolerance: c.tolerance, FailurePerHour: c.afr / unit.HoursPerYear, RestorePerHour: 1 / c.restore,
		}.LossFrom(c.down, now.Month)
	}
	return arrays, truth
}

// Against the exact chain started in each state: every chance within 4.5 standard errors,
// their order, and the sum, which is that of a Poisson-binomial law's mean.
func TestFleetAgainstTheChain(t *testing.T) {
	t.Parallel()
	arrays, truth := chainedFleet()
	r := ask(t, 2, arrays...)
	var want []string
	sum := 0.0
	for name, chance := range truth {
		want = append(want, name)
		sum += chance
	}
	slices.SortFunc(want, func(a, b string) int { return int(math.Copysign(1, truth[b]-truth[a])) })
	for i, s := range r.Arrays {
		if s.Name != want[i] {
			t.Errorf("place %d is %s, want %s", i+1, s.Name, want[i])
		}
		if n := simtest.StandardErrors(s.Loss, truth[s.Name]); math.Abs(n) > 4.5 {
			t.Errorf("%s: %g, %.1f standard errors from the chain's %g", s.Name, s.Loss.Value, n, truth[s.Name])
		}
		if s.Best != nil || s.TakesOff != estimate.Exact(0) { // a restore law leaves nothing to do
			t.Errorf("%s: %+v helps", s.Name, s.Best)
		}
	}
	if n := simtest.StandardErrors(r.Losses, sum); math.Abs(n) > 4.5 || !(r.Losses.Low < r.Losses.Value) {
		t.Errorf("%+v arrays to be expected to lose footage, %.1f standard errors from %g", r.Losses, n, sum)
	}
	if r.Degraded != 5 || r.Whole != 3 || r.Lost != 0 {
		t.Errorf("%d degraded, %d whole, %d lost", r.Degraded, r.Whole, r.Lost)
	}
}

// waiting returns an array with a drive down, a technician who comes in so many hours, and
// rebuilds in no time to speak of.
func waiting(name string, drives int, afr, hours float64) Array {
	a := chained(name, array.RAID5, drives, 1, afr, 1)
	a.Choice.Care.Restore = nil
	a.Choice.Care.Response = array.Fixed{Hours: 24}
	a.Choice.Drive.Transfer, a.Choice.Drive.Capacity = 1e12, 1e10
	a.State.TechnicianIn = hours
	return a
}

// What a visit takes off, and the order by it, in closed form: with one parity drive, one
// drive down and exponential lives, a loss within a wait is 1 − exp(−λ(n − 1)·hours), and
// the visit is the wait cut to 4 h, or to 1 h where it was below 8 h. The most endangered
// array is not that where a visit takes off most.
func TestOrderAgainstTheClosedForm(t *testing.T) {
	t.Parallel()
	r := ask(t, 2, waiting("soon", 12, 0.60, 5), waiting("late", 6, 0.06, 100), waiting("later", 6, 0.03, 140), waiting("latest", 4, 0.03, 160))
	within := func(drives int, afr, hours float64) float64 {
		return -math.Expm1(-float64(drives-1) * afr / unit.HoursPerYear * hours)
	}
	want := map[string]float64{
		"soon": within(12, 0.6, 5) - within(12, 0.6, 1), "late": within(6, 0.06, 100) - within(6, 0.06, 4),
		"later": within(6, 0.03, 140) - within(6, 0.03, 4), "latest": within(4, 0.03, 160) - within(4, 0.03, 4),
	}
	for i, name := range []string{"late", "soon", "later", "latest"} {
		s := &r.Arrays[i]
		if s.Name != name {
			t.Errorf("place %d is %s, want %s", i+1, s.Name, name)
		}
		// The rebuild and what follows it are the same with and without, but for some per cent.
		if got := s.TakesOff.Value; s.Best == nil || math.Abs(got-want[s.Name]) > 0.08*want[s.Name] {
			t.Errorf("%s: a visit takes off %g (%g to %g), want %g", s.Name, got, s.TakesOff.Low, s.TakesOff.High, want[s.Name])
		}
	}
	if all := byName(r); all["soon"].Loss.Value < all["late"].Loss.Value {
		t.Errorf("the array where a visit helps less is not the more endangered: %g and %g", all["soon"].Loss.Value, all["late"].Loss.Value)
	}
}

// One array of a fleet is what now says of it by itself, by other streams: the chances and
// what the best thing leaves lie within each other's intervals, thrice widened.
func TestFleetOfOneIsNow(t *testing.T) {
	t.Parallel()
	for i, a := range readMade(t, makeFleet(t, 67, 1), usual()).Arrays {
		if i%33 > 0 || len(a.State.Down()) == 0 {
			continue
		}
		opt := usual()
		opt.MaxTrials = 200_000
		if !thorough.Asked() {
			opt.MaxTrials = 20_000
		}
		alone, err := now.Ask(context.Background(), now.Request{Site: a.Site, Choice: a.Choice, State: a.State, Options: opt})
		if err != nil {
			t.Fatal(err)
		}
		s := ask(t, 1, a).Arrays[0]
		best := alone.Actions[0].Loss
		if s.Best == nil { // what takes off a twentieth, or next to it, may be told of or not
			if best = alone.Loss; alone.Actions[0].Ratio.Value < 0.93 {
				t.Errorf("%s: nothing helps in the fleet, and %+v by itself", a.Name, alone.Actions[0])
			}
		}
		for _, c := range []struct {
			what string
			a, b estimate.Estimate
		}{{"loss", s.Loss, alone.Loss}, {"before whole", s.BeforeWhole, alone.BeforeWhole}, {"with the best thing", s.Left(), best}} {
			off := math.Abs(c.a.Value-c.b.Value) / math.Hypot(c.a.Value*c.a.RelativeError, c.b.Value*c.b.RelativeError)
			if off > 4.5 {
				t.Errorf("%s: %s %g in the fleet and %g by itself, %.1f standard errors apart", a.Name, c.what, c.a.Value, c.b.Value, off)
			}
		}
		if s.Best != nil && s.Advice != alone.Actions[0].Name && s.Best.Ratio.Low > alone.Actions[0].Ratio.High {
			t.Errorf("%s: do %q in the fleet and %q by itself", a.Name, s.Advice, alone.Actions[0].Name)
		}
	}
}

// One seed gives the same result for any number of workers, and the figures of an array are
// the same whatever stands beside it.
func TestSameDigits(t *testing.T) {
	t.Parallel()
	n := 40
	if !thorough.Asked() {
		n = 12
	}
	arrays := readMade(t, makeFleet(t, n, 3), usual()).Arrays
	one, three := askTo(t, coarse(), 1, arrays...), askTo(t, coarse(), 3, arrays...)
	if one.Losses != three.Losses || one.Year != three.Year || !slices.Equal(one.Models, three.Models) {
		t.Errorf("%+v and %+v", one, three)
	}
	same := func(a, b Standing) bool {
		if a.Best != nil && b.Best != nil && *a.Best != *b.Best {
			return false
		}
		return a.Name == b.Name && a.Loss == b.Loss && a.TakesOff == b.TakesOff && a.Advice == b.Advice && a.Lives == b.Lives
	}
	for i := range one.Arrays {
		if !same(one.Arrays[i], three.Arrays[i]) || one.Arrays[i].Failures != three.Arrays[i].Failures {
			t.Errorf("place %d: %+v and %+v", i+1, one.Arrays[i], three.Arrays[i])
		}
	}
	some := byName(askTo(t, coarse(), 1, arrays[n/2:n*3/4]...))
	for name, s := range byName(one) {
		if few, ok := some[name]; ok && len(s.AreDown) == 0 && !same(s, few) {
			t.Errorf("%s: %+v among %d and %+v among %d", name, s, n, few, len(some))
		}
	}
}

// Arrays that are lost come first, with nothing to take off; those that are alike are not
// told apart; drives that wait and hot spares that are out are wanted now.
func TestLostTiedAndOwed(t *testing.T) {
	t.Parallel()
	lost := chained("z lost", array.RAID6, 8, 3, 0.02, 48)
	twin := waiting("twin 2", 6, 0.06, 100)
	twin.SiteAt = "elsewhere.toml"
	spare := chained("spare out", array.RAID6, 8, 0, 0.02, 48)
	spare.Choice.HotSpares = 2
	spare.State.Spares = 1
	r := askTo(t, 0.001, 2, waiting("twin 1", 6, 0.06, 100), twin, lost, spare)
	if first := r.Arrays[0]; first.Name != "z lost" || !first.Lost() || first.Loss.Value != 1 || first.TakesOff.Value != 0 || first.Best != nil {
		t.Errorf("first is %+v", first)
	}
	if r.Arrays[1].Tied || !r.Arrays[2].Tied || r.Arrays[3].Tied {
		t.Errorf("tied: %v, %v, %v", r.Arrays[1].Tied, r.Arrays[2].Tied, r.Arrays[3].Tied)
	}
	if r.Arrays[1].Lives != DefaultMaxTrials {
		t.Errorf("what is not told apart had %d lives", r.Arrays[1].Lives)
	}
	if all := byName(r); all["z lost"].Owed != 3 || all["twin 1"].Owed != 1 || all["spare out"].Owed != 1 || r.Year.Owed != 6 {
		t.Errorf("wanted now: %d of %d", r.Year.Owed, 6)
	}
	if r.Losses.Value > 0.1 { // the one that is lost is not to be expected
		t.Errorf("%g to be expected", r.Losses.Value)
	}
	if s := r.Arrays[3]; s.Advice != "Order hot spares for those that are out" {
		t.Errorf("advice %q", s.Advice)
	}
}

// Arrays that are alike are simulated once, and err together in the sum.
func TestAlikeArraysErrTogether(t *testing.T) {
	t.Parallel()
	var alike, apart []Array
	for i := range 9 {
		a := chained(fmt.Sprint(i), array.RAID5, 8, 1, 0.02, 12)
		apart = append(apart, a)
		a.SiteAt = "one.toml"
		alike = append(alike, a)
	}
	one, nine := ask(t, 2, alike...), ask(t, 2, apart...)
	if ratio := one.Losses.RelativeError / nine.Losses.RelativeError; ratio < 2 || ratio > 4.5 {
		t.Errorf("the sum of nine that are alike errs %.1f times as much as that of nine that are not, want about 3", ratio)
	}
	if one.Lives*5 > nine.Lives {
		t.Errorf("%d lives for one case, %d for nine", one.Lives, nine.Lives)
	}
}

// The intervals of quiet arrays in a large fleet, which few lives give and a rule that looks
// at them ends, hold the exact chain's chance in 92 % of 800 seeds and more: it is 95 % of two
// thousand.
func TestQuietIntervalsCover(t *testing.T) {
	t.Parallel()
	arrays, truth := chainedFleet()
	const seeds = 800
	for _, a := range arrays[5:] { // those of which every drive runs
		held, trusted := 0, 0
		for seed := range uint64(seeds) {
			opt := usual()
			opt.Seed, opt.Accuracy, opt.MaxTrials, opt.Workers = seed, quietAccuracy, quietLives, 1
			r, err := now.Brief(context.Background(), now.Request{Site: a.Site, Choice: a.Choice, State: a.State, Options: opt}, new(model.Builder))
			if err != nil {
				t.Fatal(err)
			}
			if len(r.Warnings) == 0 {
				if trusted++; r.Loss.Holds(truth[a.Name]) {
					held++
				}
			}
		}
		t.Logf("%s: %d of %d", a.Name, held, trusted)
		if trusted < seeds*9/10 || held*100 < trusted*92 {
			t.Errorf("%s: %d of %d intervals hold %g, %d of %d are trusted", a.Name, held, trusted, truth[a.Name], trusted, seeds)
		}
	}
}
