package sweep

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"testing"

	"arrayodds/array"
	"arrayodds/array/thorough"
	"arrayodds/sim"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/simtest"
)

func series(t testing.TB, opt engine.Options, points ...Point) *Series {
	t.Helper()
	s, err := Run(context.Background(), points, opt)
	if err != nil {
		t.Fatal(err)
	}
	return s
}

// Over 60 seeds for each of six pairs (without make thorough 40 for two), with -calibrate 200 and
// with -short 20, the interval of the ratio covers that of the exact chain in 92 % of all
// or more, and so do the loss chances' own, from as few as 512 trials. It is hardly wider than that of apart streams. (Where the
// points' own errors are below the part of a life in all lives, more are covered: that is
// the least that is given.)
func TestRatioCoversTheChain(t *testing.T) {
	t.Parallel()
	seeds, least := 60, 51 // a true 95 % falls below in 1 of 1 500
	switch {
	case *thorough.Calibrate:
		seeds, least = 200, 179 // in 1 of 2 000
	case testing.Short():
		seeds, least = 20, 16 // in 1 of 390
	case !thorough.Asked():
		seeds, least = 40, 33 // in 1 of 800
	}
	six := simtest.NewChained(array.RAID6, 8, 0.02, 48)
	pairs := []struct {
		name string
		a, b simtest.Chained
	}{
		{"RAID 6, restore 48 h and 52 h", simtest.NewChained(array.RAID6, 8, 0.02, 52), six},
		{"RAID 6, restore 48 h and 168 h", simtest.NewChained(array.RAID6, 8, 0.02, 168), six},
		{"RAID 6, rate 2 % and 2.1 %", simtest.NewChained(array.RAID6, 8, 0.021, 48), six},
		{"RAID 6, rate 2 % and 3 %", simtest.NewChained(array.RAID6, 8, 0.03, 48), six},
		{"RAID 5, 8 and 9 drives", simtest.NewChained(array.RAID5, 9, 0.02, 48), simtest.NewChained(array.RAID5, 8, 0.02, 48)},
		{"triple parity and RAID 6", simtest.NewChained(array.TripleParity, 8, 0.02, 48), six},
	}
	type count struct{ ratio, own, all int }
	var total count
	for i, c := range pairs {
		if !thorough.Part(i, 3) {
			continue
		}
		want := c.a.Exact() / c.b.Exact()
		n, width := count{}, 0.0
		for seed := range uint64(seeds) {
			s := series(t, engine.Options{Seed: 500 + seed, Accuracy: 0.08, MaxTrials: 1e6}, pointOf(c.a), pointOf(c.b))
			r := s.Ratio(0, s, 1)
			if r.Low <= want && want <= r.High {
				n.ratio++
			}
			for i, x := range []simtest.Chained{c.a, c.b} {
				if p, e := s.Result(i).LossChance, x.Exact(); p.Low <= e && e <= p.High {
					n.own++
				}
			}
			n.all++
			width += math.Log(r.High/r.Low) / math.Log(r.Independent.High/r.Independent.Low) / float64(seeds)
		}
		t.Logf("%s: %.4g, covered by %d of %d, width %.2f of that of apart streams; chances covered by %d of %d", c.name, want, n.ratio, seeds, width, n.own, 2*seeds)
		if n.ratio < least {
			t.Errorf("%s: covered by %d of %d", c.name, n.ratio, seeds)
		}
		if width > 1.05 {
			t.Errorf("%s: the interval is %.2f of that of apart streams", c.name, width)
		}
		total.ratio, total.own, total.all = total.ratio+n.ratio, total.own+n.own, total.all+n.all
	}
	for what, share := range map[string]float64{"ratios": float64(total.ratio) / float64(total.all), "loss chances": float64(total.own) / float64(2*total.all)} {
		if !testing.Short() && share < 0.92 {
			t.Errorf("%.1f %% of the intervals of %s cover", 100*share, what)
		}
	}
}

// Choices that stop at different numbers of trials, and points of different
// series, are still held against each other rightly.
func TestRatioOfUnequalTrials(t *testing.T) {
	thorough.Only(t, "coverage takes sixty pairs of runs, and fewer tell little")
	t.Parallel()
	a, b := simtest.NewChained(array.RAID6, 8, 0.02, 48), simtest.NewChained(array.RAID5, 8, 0.02, 48)
	want := a.Exact() / b.Exact()
	covered := 0
	const seeds, least = 60, 51 // a true 95 % falls below in 1 of 1 500
	for seed := range uint64(seeds) {
		x := series(t, engine.Options{Seed: seed, Accuracy: 0.002, MaxTrials: 1e6}, pointOf(a))
		y := series(t, engine.Options{Seed: seed, Accuracy: 0.1, MaxTrials: 1e6}, pointOf(b))
		if x.Result(0).Trials <= y.Result(0).Trials {
			t.Fatalf("%d and %d trials", x.Result(0).Trials, y.Result(0).Trials)
		}
		if r := x.Ratio(0, y, 0); r.Low <= want && want <= r.High {
			covered++
		}
	}
	if covered < least {
		t.Errorf("covered by %d of %d", covered, seeds)
	}
}

// The digits depend neither on the workers nor on what else is in the series,
// and the share of the work done never falls.
func TestSeriesWorkers(t *testing.T) {
	t.Parallel()
	points := responses(saltmarsh(t), 3)
	opt := engine.Options{Seed: 4, Accuracy: 0.1, MaxTrials: 1e6}
	run := func(workers int, points []Point) (out []string) {
		last := 0.0
		opt.Workers = workers
		opt.Progress = func(p engine.Progress) {
			if p.Share < last || p.Share > 1 || p.Trials < 1 {
				t.Errorf("from %g to %+v", last, p)
			}
			last = p.Share
		}
		s := series(t, opt, points...)
		for i := range points {
			out = append(out, fmt.Sprint(s.Result(i), s.Ratio(i, s, 0)))
		}
		if last != 1 {
			t.Errorf("the share ends at %g", last)
		}
		return out
	}
	one, two := run(1, points), run(2, points)
	if !reflect.DeepEqual(one, two) {
		t.Errorf("one worker: %v\ntwo: %v", one, two)
	}
	if alone := run(2, points[:3]); !reflect.DeepEqual(alone, two[:3]) {
		t.Errorf("alone: %v\namong others: %v", alone, two[:3])
	}
}

// Equal points are one, and their ratio is exactly 1; as it is between two series.
func TestEqualPoints(t *testing.T) {
	site := saltmarsh(t)
	for _, c := range site.Choices {
		opt := engine.Options{Seed: 9, Accuracy: 0.2, MaxTrials: 1e5}
		again := c
		again.Label = "the same by another name"
		s := series(t, opt, Point{site, c}, Point{site, again})
		if len(s.unique) != 1 || len(s.members) != 2 || !reflect.DeepEqual(s.Result(0), s.Result(1)) {
			t.Errorf("%s: %d systems", c.Label, len(s.unique))
		}
		other := series(t, opt, Point{site, c})
		for _, r := range []Ratio{s.Ratio(0, s, 1), s.Ratio(1, other, 0)} {
			if r.Estimate != estimate.Exact(1) || r.Independent.Value != 1 || !(r.Independent.Low < 1 && r.Independent.High > 1) {
				t.Errorf("%s ÷ itself: %+v", c.Label, r)
			}
		}
		c.Care.Response = array.Fixed{Hours: 1000}
		c.Care.Notice = array.Fixed{Hours: 1000}
		if s := series(t, opt, Point{site, c}, Point{site, again}); len(s.unique) != 2 {
			t.Errorf("%s with another response is taken for the same", c.Label)
		}
	}
}

// A series agrees with runs of their own, in every figure that both give.
func TestSeriesAgreesWithRun(t *testing.T) {
	site := saltmarsh(t)
	var points []Point
	for _, c := range site.Choices {
		points = append(points, Point{site, c})
	}
	s := series(t, engine.Options{Seed: 3, Accuracy: 0.03, MaxTrials: 1e6}, points...)
	for i, c := range site.Choices {
		r, err := sim.Run(context.Background(), site, c, engine.Options{Seed: 1, Accuracy: 0.03, MaxTrials: 1e6})
		if err != nil {
			t.Fatal(err)
		}
		p := s.Result(i)
		if p.StoppedBy != engine.ByAccuracy || p.Warnings != nil || !p.HasCameras || p.LossChance.RelativeError*estimate.Z95 > 0.03 {
			t.Errorf("%s: %+v", c.Label, p)
		}
		for what, pair := range map[string][2]estimate.Estimate{
			"loss": {p.LossChance, r.LossChance}, "any": {p.AnyLossChance, r.AnyLossChance}, "events": {p.LossEvents, r.LossEvents},
			"clip": {p.MissingClip, r.MissingClip}, "camera-days": {p.CameraDaysLostPerYear, r.CameraDaysLostPerYear},
			"unprotected": {p.UnprotectedHoursPerYear, r.UnprotectedHoursPerYear}, "rebuilds": {p.RebuildsPerYear, r.RebuildsPerYear},
			"drives": {p.DrivesReplaced, r.DrivesReplaced},
		} {
			a, b := pair[0], pair[1]
			if se := math.Hypot(a.Value*a.RelativeError, b.Value*b.RelativeError); math.Abs(a.Value-b.Value) > 4*se {
				t.Errorf("%s, %s: %g and %g, 4 standard errors are %g", c.Label, what, a.Value, b.Value, 4*se)
			}
		}
	}
}

// What cannot be simulated, or not within its part of the work, is said of its
// own point, and the others are as they would be.
func TestSeriesWithFaults(t *testing.T) {
	good := pointOf(simtest.NewChained(array.RAID5, 6, 0.02, 48))
	misfit := good
	misfit.Choice.Drives = 2
	busy := pointOf(simtest.NewChained(array.TripleParity, 8, 30, 1)) // a thousand failures in each life
	busy.Choice.Label = "busy"
	opt := engine.Options{Seed: 1, Accuracy: 0.1, MaxTrials: 1e5}
	s := newSeries(opt)
	s.work = 1e5
	for _, p := range []Point{misfit, good, busy} {
		s.add(p)
	}
	if err := s.run(context.Background()); err != nil {
		t.Fatal(err)
	}
	var fit *array.Misfit
	if r := s.Result(0); !errors.As(r.Err, &fit) || !math.IsNaN(r.LossChance.Value) {
		t.Errorf("a layout that does not fit: %+v", r)
	}
	var b *engine.BusyError
	if r := s.Result(2); !errors.As(r.Err, &b) || b.Choice != "busy" || !math.IsNaN(r.LossChance.Value) {
		t.Errorf("a busy one: %+v", r)
	}
	if alone := series(t, opt, good); !reflect.DeepEqual(alone.Result(0), s.Result(1)) {
		t.Errorf("%+v among others, %+v alone", s.Result(1), alone.Result(0))
	}
	for _, pair := range [][2]int{{0, 1}, {1, 0}, {2, 1}, {1, 2}} {
		if r := s.Ratio(pair[0], s, pair[1]); !math.IsNaN(r.Value) || !math.IsNaN(r.Low) || !math.IsNaN(r.Independent.High) {
			t.Errorf("%v: %+v", pair, r)
		}
	}
	// Work enough to begin, and not to come to the accuracy.
	s = newSeries(engine.Options{Seed: 1, Accuracy: 0.0001, MaxTrials: 1e9})
	s.work = 50000
	s.add(good)
	if err := s.run(context.Background()); err != nil {
		t.Fatal(err)
	}
	if r := s.Result(0); r.StoppedBy != engine.ByBudget || r.Trials < 1024 || s.members[0].sums.Work > 100000 {
		t.Errorf("%s after %d trials, work %d", r.StoppedBy, r.Trials, s.members[0].sums.Work)
	}
	// More accuracy than the budget gives.
	if r := series(t, engine.Options{Seed: 1, Accuracy: 1e-6, MaxTrials: 5000}, good).Result(0); r.StoppedBy != engine.ByBudget || r.Trials != 5000/128*128 {
		t.Errorf("%s after %d trials", r.StoppedBy, r.Trials)
	}
	ctx, stop := context.WithCancel(context.Background())
	stop()
	if _, err := Run(ctx, []Point{good}, opt); err != context.Canceled {
		t.Errorf("called off: %v", err)
	}
	if s := series(t, opt); len(s.members) != 0 {
		t.Errorf("a series of nothing has %d points", len(s.members))
	}
}

// A point that is far slower than the others keeps them company for four times
// what they need, no more.
func TestSlowPointCostsOthersLittle(t *testing.T) {
	easy, hard := pointOf(simtest.NewChained(array.RAID0, 8, 0.02, 48)), pointOf(simtest.NewChained(array.TripleParity, 8, 0.02, 48))
	hard.Choice.Label = easy.Choice.Label
	s := series(t, engine.Options{Seed: 1, Accuracy: 0.002, MaxTrials: 1e6}, easy, hard)
	if e, h := s.Result(0), s.Result(1); e.Trials != overrun*firstRound*128 || h.Trials <= e.Trials {
		t.Errorf("%d trials of the easy one, %d of the hard one", e.Trials, h.Trials)
	}
}

// Nothing that can fail: no loss, and no ratio to it.
func TestRatioToNothing(t *testing.T) {
	some, none := pointOf(simtest.NewChained(array.RAID5, 6, 0.02, 48)), pointOf(simtest.NewChained(array.RAID5, 6, 0.02, 48))
	none.Choice.Drive.Life = array.RateByYear{AFR: []float64{0}}
	s := series(t, engine.Options{Seed: 1, Accuracy: 0.1, MaxTrials: 1e5}, some, none)
	if p := s.Result(1); p.LossChance != (estimate.Estimate{}) || p.StoppedBy != engine.ByAccuracy || p.Warnings != nil {
		t.Errorf("%+v", p)
	}
	if r := s.Ratio(1, s, 0); r != (Ratio{}) {
		t.Errorf("nothing ÷ something: %+v", r)
	}
	if r := s.Ratio(0, s, 1); !math.IsNaN(r.Value) {
		t.Errorf("something ÷ nothing: %+v", r)
	}
	// Plain mode sees none of what is rare: that is not nothing.
	rare := pointOf(simtest.NewChained(array.RAID6, 8, 0.002, 10))
	p := series(t, engine.Options{Seed: 1, Accuracy: 0.1, MaxTrials: 2000, Plain: true}, some, rare)
	if r := p.Result(1).LossChance; r.Value != 0 || !(r.High > 1e-3) {
		t.Errorf("plain: %+v", r)
	}
}
