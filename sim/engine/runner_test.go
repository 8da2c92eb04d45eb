package engine

import (
	"context"
	"errors"
	"math"
	"reflect"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"

	"gonum.org/v1/gonum/stat"
	"gonum.org/v1/gonum/stat/distuv"
)

// seldom is eight drives with single parity that are lost in 1 of 2 000 lives.
func seldom() *model.System {
	return simtest.OneGroup(8, 1, simtest.HalfMillionHours, law.Exponential(48), 43800)
}

// A run is what one simulator sums up block by block, each from a stream of its own, in
// the order of the blocks and whoever runs them.
func TestRunnerAddsBlocksInOrder(t *testing.T) {
	t.Parallel()
	const blocks = 21
	want := model.NewSums(seldom())
	b := NewSimulator(seldom(), false)
	var each []float64
	for i := range uint64(blocks) {
		s, rnd := model.NewSums(seldom()), stream.New(7, i)
		for range TrialsPerBlock {
			if !b.Life(rnd, s.Begin()) {
				t.Fatal("a life did not end")
			}
			s.End()
		}
		each = append(each, s.Sum[model.Loss])
		want.Add(s)
	}
	for _, workers := range []int{1, 3} {
		r := NewRunner(seldom(), Options{Seed: 7, Workers: workers})
		var seen []float64
		r.EachBlock = func(s *model.Sums) { seen = append(seen, s.Sum[model.Loss]) }
		for _, to := range []int{5, 5, blocks} { // in parts, as rounds do
			if err := r.RunTo(context.Background(), to); err != nil {
				t.Fatal(err)
			}
		}
		if r.Blocks != blocks || r.Total.Sum != want.Sum || model.NewFit(r.Total).Estimate(model.Loss) != model.NewFit(want).Estimate(model.Loss) || r.Total.N != blocks*TrialsPerBlock || !reflect.DeepEqual(r.Total.Curve, want.Curve) {
			t.Errorf("%d workers: %d blocks, %v, one by one %v", workers, r.Blocks, r.Total.Sum, want.Sum)
		}
		if !reflect.DeepEqual(seen, each) {
			t.Errorf("%d workers: blocks are seen as %v, one by one %v", workers, seen, each)
		}
	}
}

// By hand: to halve a half-width takes four times the blocks, and a twentieth more for
// luck; no round multiplies by more than 4 or by less than 1¼.
func TestNextBlocks(t *testing.T) {
	t.Parallel()
	for _, c := range []struct {
		blocks              int
		halfWidth, accuracy float64
		want                int
	}{
		{100, 0.075, 0.05, 237}, // 1.05 × 2.25
		{100, 0.1, 0.05, 400},
		{16, math.Inf(1), 0.05, 64},
		{16, 0.02, 0.05, 20},
		{17, 0.05, -1, 22},
	} {
		if got := NextBlocks(c.blocks, c.halfWidth, c.accuracy); got != c.want {
			t.Errorf("%+v: %d", c, got)
		}
	}
	for trials, want := range map[int64]int{1: 1, 128: 1, 300: 2, 1280: 10} {
		if got := (Options{MaxTrials: trials}).MaxBlocks(); got != want {
			t.Errorf("%d trials are %d blocks, by hand %d", trials, got, want)
		}
	}
}

// sample is the sums of lives with these loss chances, of each as many as make a batch.
func sample(losses ...float64) *model.Sums {
	s := model.NewSums(seldom())
	for i := range 8 * len(losses) {
		w := losses[i/8]
		tr := s.Begin()
		tr.Add(model.Failures, 1)
		if w > 0 {
			tr.FirstLoss(10, w, model.Rebuilding)
		}
		s.End()
	}
	return s
}

// The half-width of a sample of eight batches is gonum's standard error times the point
// of its Student's t, with what one life in 64 may hide added to its square; the
// effective number of samples is n ÷ (1 + the square of the coefficient of variation),
// by gonum too.
func TestFiguresOfASample(t *testing.T) {
	t.Parallel()
	x := []float64{0, 2e-6, 1e-7, 5e-6, 0, 0, 3e-6, 1e-6}
	s := sample(x...)
	mean, sd := stat.MeanStdDev(x, nil)
	n := float64(len(x))
	student := distuv.StudentsT{Sigma: 1, Nu: n - 1}.Quantile(0.975)
	if want := student * math.Hypot(stat.StdErr(sd, n)/mean, 1/(8*n)); math.Abs(RelativeHalfWidth(s)-want) > 1e-3*want {
		t.Errorf("half-width %g, gonum %g", RelativeHalfWidth(s), want)
	}
	population := sd * math.Sqrt((n-1)/n)
	if want := 8 * n / (1 + population*population/mean/mean); math.Abs(s.EffectiveSamples()-want) > 1e-12*want {
		t.Errorf("%g effective samples, gonum %g", s.EffectiveSamples(), want)
	}
	if want := 5e-6 / (8 * n * mean); math.Abs(LargestShare(s)-want) > 1e-12*want {
		t.Errorf("the largest share is %g, by hand %g", LargestShare(s), want)
	}
	if none := sample(0, 0); !math.IsInf(RelativeHalfWidth(none), 1) || none.EffectiveSamples() != 0 || LargestShare(none) != 0 || Warnings(none) != nil {
		t.Error("no loss was seen, which is no figure")
	}
	if nothing := model.NewSums(seldom()); RelativeHalfWidth(nothing) != 0 {
		t.Error("nothing failed, and yet the loss chance is in doubt")
	}
}

// Each round reports more trials and a greater share; the last one all of it.
func TestProgressOfARun(t *testing.T) {
	t.Parallel()
	var all []Progress
	opt := Options{Seed: 1, Accuracy: 0.01, MaxTrials: 1e6, Progress: func(p Progress) { all = append(all, p) }}
	s, by, err := Simulate(context.Background(), seldom(), opt)
	if err != nil || by != ByAccuracy || RelativeHalfWidth(s) > 0.01 {
		t.Fatal(by, err)
	}
	for i, p := range all {
		if i > 0 && (p.Trials <= all[i-1].Trials || p.Accuracy >= all[i-1].Accuracy*1.5) || !(p.Share > 0 && p.Share <= 1) {
			t.Errorf("after %+v comes %+v", all[:i], p)
		}
	}
	if last := all[len(all)-1]; len(all) < 3 || last.Share != 1 || last.Trials != int(s.N) || last.Accuracy > 0.01 {
		t.Errorf("%d rounds, the last one %+v", len(all), last)
	}
}

// Drives that fail by the thousand are more than a block may take. The error has their
// number, 8 × 5 years × 5 000 a year, and each common-cause event strikes half of them.
func TestBusy(t *testing.T) {
	t.Parallel()
	sys := simtest.OneGroup(8, 7, law.Constant{PerHour: 5000.0 / 8760}, law.Fixed(0.01), 43800)
	sys.ShockRate, sys.ShockChance = 0.2, 0.5
	r := NewRunner(sys, Options{Seed: 1})
	r.blockWork = 1e5
	err := r.RunTo(context.Background(), 2)
	var busy *BusyError
	if !errors.As(err, &busy) || math.Abs(busy.Failures-8*(25000+0.2*0.5*43800)) > 1 {
		t.Errorf("%v", err)
	}
}
