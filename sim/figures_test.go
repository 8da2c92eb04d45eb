package sim

import (
	"context"
	"errors"
	"fmt"
	"math"
	"reflect"
	"testing"
	"time"

	"arrayodds/array"
	"arrayodds/array/unit"
	"arrayodds/sim/engine"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"

	"pgregory.net/rapid"
)

// estimates lists every estimate of a result by name.
func estimates(r Result) (names []string, list []estimate.Estimate) {
	var walk func(name string, v reflect.Value)
	walk = func(name string, v reflect.Value) {
		switch x := v.Interface().(type) {
		case estimate.Estimate:
			names, list = append(names, name), append(list, x)
		case CurvePoint:
			walk(fmt.Sprintf("%s in %g years", name, x.Years), reflect.ValueOf(x.Estimate))
		default:
			switch v.Kind() {
			case reflect.Struct:
				for i := range v.NumField() {
					walk(name+" "+v.Type().Field(i).Name, v.Field(i))
				}
			case reflect.Slice:
				for i := range v.Len() {
					walk(name, v.Index(i))
				}
			}
		}
	}
	walk("", reflect.ValueOf(r))
	return names, list
}

func TestFiguresMakeSense(t *testing.T) {
	simtest.CheckSites(t, 80, func(t *rapid.T) {
		site, choice := simtest.DrawSite(t)
		opt := few(8)
		opt.Plain = rapid.IntRange(0, 3).Draw(t, "plain") == 0
		r := run(t, site, choice, opt)

		names, list := estimates(r)
		if len(list) < 19 {
			t.Fatalf("only %d estimates in a result", len(list))
		}
		for i, e := range list {
			if !(0 <= e.Low && e.Low <= e.Value && e.Value <= e.High) || math.IsInf(e.High, 0) || !(e.RelativeError >= 0) || math.IsInf(e.RelativeError, 0) {
				t.Fatalf("%s: %+v", names[i], e)
			}
		}
		chances := []estimate.Estimate{r.LossChance, r.AnyLossChance, r.LossChanceRetention, r.MissingClip,
			r.MissingByCause.Drives, r.MissingByCause.Unreadable, r.MissingByCause.Recorder, r.MissingByCause.Shortfall}
		before := 0.0
		for _, p := range r.LossCurve {
			chances = append(chances, p.Estimate)
			if p.Value < before {
				t.Fatalf("the curve falls to %v at %v years", p.Value, p.Years)
			}
			before = p.Value
		}
		for _, c := range chances {
			if c.High > 1 {
				t.Fatalf("a chance of %+v in %+v", c, r)
			}
		}
		last := r.LossCurve[len(r.LossCurve)-1]
		if !near(last.Value, r.LossChance.Value) || last.Years != site.ServiceLife/unit.HoursPerYear {
			t.Fatalf("the curve ends with %+v, the loss chance is %+v", last, r.LossChance)
		}
		if r.LossChance.Value > r.AnyLossChance.Value*(1+1e-9) {
			t.Fatalf("a loss %v is likelier than an incident %v", r.LossChance.Value, r.AnyLossChance.Value)
		}
		if r.LossChance.Value > r.LossEvents.Value*(1+1e-9) || r.LossEvents.Value > r.Incidents.Value*(1+1e-9) {
			t.Fatalf("%v chance of a loss, %v losses, %v incidents", r.LossChance.Value, r.LossEvents.Value, r.Incidents.Value)
		}
		causes := r.MissingByCause
		sum := causes.Drives.Value + causes.Unreadable.Value + causes.Recorder.Value + causes.Shortfall.Value
		if !near(math.Min(1, sum), r.MissingClip.Value) {
			t.Fatalf("the causes %+v add up to %v, not %v", causes, sum, r.MissingClip.Value)
		}
		recorder := r.MissingByRecorder
		sum = recorder.Power.Value + recorder.SystemDisk.Value + recorder.Mains.Value + recorder.Swaps.Value
		if !near(sum, causes.Recorder.Value) {
			t.Fatalf("the parts %+v add up to %v, not %v", recorder, sum, causes.Recorder.Value)
		}
		whole := 0.0
		for i, s := range r.LossShares {
			whole += s.Value
			if s.Cause != model.Cause(i) || s.High > 1 {
				t.Fatalf("share %d: %+v", i, s)
			}
		}
		if seen := r.LossChance.Value > 0; seen != (r.LossShares != nil) || seen && (!near(whole, 1) || len(r.LossShares) != int(model.Causes)) {
			t.Fatalf("shares %+v of a loss chance of %v", r.LossShares, r.LossChance.Value)
		}
		if r.HasCameras != (len(site.Cameras) > 0) {
			t.Fatalf("cameras: %v", r.HasCameras)
		}
		if r.LargestShare < 0 || r.LargestShare > 1+1e-9 || r.EffectiveSamples < 0 || r.EffectiveSamples > float64(r.Trials)*(1+1e-9) {
			t.Fatalf("diagnostics: %v effective samples, largest %v", r.EffectiveSamples, r.LargestShare)
		}
	})
}

func near(a, b float64) bool { return math.Abs(a-b) <= 1e-9*math.Max(math.Abs(a), math.Abs(b)) }

// The retention horizon: 1 − exp(−losses × retention ÷ life), the longest
// retention of all camera groups.
func TestRetentionHorizon(t *testing.T) {
	simtest.CheckSites(t, 20, func(t *rapid.T) {
		site, choice := simtest.DrawSite(t)
		r := run(t, site, choice, few(9))
		longest := 0.0
		for _, c := range site.Cameras {
			longest = math.Max(longest, c.Retention)
		}
		part := longest / site.ServiceLife
		for _, c := range [][2]float64{
			{r.LossChanceRetention.Value, r.LossEvents.Value},
			{r.LossChanceRetention.Low, r.LossEvents.Low},
			{r.LossChanceRetention.High, r.LossEvents.High},
		} {
			if want := 1 - math.Exp(-c[1]*part); math.Abs(c[0]-want) > 1e-12 {
				t.Fatalf("%v losses, of which %v within a retention: %v, want %v", c[1], part, c[0], want)
			}
		}
	})
}

// Where drives do not age, a window anywhere in the life is like one at its
// start, but for what is under way when it opens: a restore of 48 h in 4 320 h.
func TestRetentionHorizonIsAWindowOfTheLife(t *testing.T) {
	site, choice := simtest.OftenFailing()
	choice.Drive.Life = array.ConstantRate{AFR: 0.05}
	choice.Care.Restore = array.Exponential{Mean: 24}
	site.Cameras[0].Retention = 180 * 24
	opt := engine.Options{Seed: 1, Accuracy: -1, MaxTrials: 20000}
	whole, err := Run(context.Background(), site, choice, opt)
	if err != nil {
		t.Fatal(err)
	}
	site.ServiceLife = site.Cameras[0].Retention
	window, err := Run(context.Background(), site, choice, opt)
	if err != nil {
		t.Fatal(err)
	}
	a, b := whole.LossChanceRetention, window.LossChance
	agrees(t, "loss within one retention", simulated{a.Value, a.Value * a.RelativeError}, b.Value,
		withinErrors*b.Value*b.RelativeError+48.0/4320*b.Value)
}

func TestBudgetBoundsTrials(t *testing.T) {
	for _, budget := range []int{1000, 1024, 3000} {
		site, choice := simtest.OftenFailing()
		r, err := Run(context.Background(), site, choice, engine.Options{Seed: 1, Accuracy: 1e-9, MaxTrials: int64(budget)})
		if err != nil {
			t.Fatal(err)
		}
		if r.StoppedBy != engine.ByBudget || r.Trials > budget || r.Trials <= budget-engine.TrialsPerBlock {
			t.Errorf("%d trials of %d, stopped by %s", r.Trials, budget, r.StoppedBy)
		}
	}
	site, choice := simtest.OftenFailing()
	r, err := Run(context.Background(), site, choice, engine.Options{Seed: 1, Accuracy: 0.1, MaxTrials: 1e7})
	if err != nil {
		t.Fatal(err)
	}
	reach := estimate.Z95 * r.LossChance.RelativeError
	if r.StoppedBy != engine.ByAccuracy || reach > 0.1 || r.Trials >= 1e7 {
		t.Errorf("%d trials reach %v, stopped by %s", r.Trials, reach, r.StoppedBy)
	}
}

// A run that would take hours ends with the context's error, whether that ends
// before the run, within a round of trials or between two.
func TestCancelledRunEnds(t *testing.T) {
	site, choice := simtest.OftenFailing()
	endless := engine.Options{Seed: 1, Accuracy: 1e-9, MaxTrials: 1e10}

	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	if _, err := Run(ctx, site, choice, endless); !errors.Is(err, context.Canceled) {
		t.Errorf("cancelled before: %v", err)
	}

	ctx, cancel = context.WithCancel(context.Background())
	rounds := 0
	opt := endless
	opt.Progress = func(engine.Progress) {
		if rounds++; rounds == 2 {
			cancel()
		}
	}
	if _, err := Run(ctx, site, choice, opt); !errors.Is(err, context.Canceled) || rounds != 2 {
		t.Errorf("cancelled after 2 rounds: %v after %d", err, rounds)
	}

	ctx, cancel = context.WithTimeout(context.Background(), 50*time.Millisecond)
	defer cancel()
	began := time.Now()
	if _, err := Run(ctx, site, choice, endless); !errors.Is(err, context.DeadlineExceeded) {
		t.Errorf("past its deadline: %v", err)
	}
	if took := time.Since(began); took > 5*time.Second {
		t.Errorf("told to end after 50 ms, it took %v", took)
	}
}
