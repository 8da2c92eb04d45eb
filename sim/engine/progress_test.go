package engine

import (
	"context"
	"errors"
	"testing"

	"arrayodds/sim/law"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
)

// The first figures come with the first two blocks, and the last ones are those of the
// run.
func TestFirstFiguresComeEarly(t *testing.T) {
	t.Parallel()
	var all []Progress
	s, _, err := Simulate(context.Background(), seldom(), Options{Seed: 1, Accuracy: 0.01, MaxTrials: 1e6, Workers: 2, Progress: func(p Progress) { all = append(all, p) }})
	if err != nil {
		t.Fatal(err)
	}
	first, last := all[0], all[len(all)-1]
	if first.Trials > 2*TrialsPerBlock || !(first.Loss.Value > 0 && first.Loss.Low < first.Loss.Value && first.Loss.High > first.Loss.Value) {
		t.Errorf("first %+v", first)
	}
	if want := model.NewFit(s).Estimate(model.Loss); last.Loss != want || last.Loss.High-last.Loss.Low >= (first.Loss.High-first.Loss.Low)/2 {
		t.Errorf("at last %+v, of the run %+v; first %+v", last.Loss, want, first.Loss)
	}
}

// Where no loss was seen the chance is open upwards, by the rule of three (3.7 at
// 97.5 %) of n lives; where nothing can fail it is 0 and certain.
func TestNothingSeen(t *testing.T) {
	t.Parallel()
	sums := sample(0, 0)
	if e := LossChance(seldom(), sums, model.NewFit(sums)); e.Value != 0 || e.High < 3.68/16 || e.High > 3.7/16 {
		t.Errorf("%+v", e)
	}
	never := simtest.OneGroup(8, 1, law.Constant{}, law.Fixed(48), 43800)
	if e := LossChance(never, sums, model.NewFit(sums)); e.Value != 0 || e.High != 0 {
		t.Errorf("%+v", e)
	}
}

// heavy is drives that fail so often that a block takes a good part of the work after
// which progress is told.
func heavy() *model.System {
	return simtest.OneGroup(8, 3, law.Constant{PerHour: 6.0 / 8760}, law.Fixed(100), 43800)
}

// However long a round is, progress is told after a bounded work.
func TestProgressWithinARound(t *testing.T) {
	t.Parallel()
	calls := 0
	r := NewRunner(heavy(), Options{Seed: 1, Workers: 2, MaxTrials: 1e9, Progress: func(Progress) { calls++ }})
	if err := r.RunTo(context.Background(), 40); err != nil {
		t.Fatal(err)
	}
	each := r.Total.Work / 40
	if each > tellingWork {
		t.Fatalf("a block takes %d", each)
	}
	if least := int(r.Total.Work / (tellingWork + 2*each)); least < 3 || calls < least {
		t.Errorf("told %d times in %d of work, at least %d", calls, r.Total.Work, least)
	}
}

// asked is a context that counts how often it is asked, and is done from some time on.
type asked struct {
	context.Context
	times, until int
}

func (a *asked) Err() error {
	a.times++
	if a.times > a.until {
		return context.Canceled
	}
	return nil
}

// The context is asked before each block and within long ones, so that one that is done
// only when it is asked ends the run at once, though nothing else tells of it.
func TestContextIsAskedBeforeEachBlock(t *testing.T) {
	t.Parallel()
	for _, slots := range []Slots{nil, NewSlots(1)} {
		free := &asked{Context: context.Background(), until: 1 << 30}
		r := NewRunner(heavy(), Options{Seed: 1, Workers: 1, Slots: slots})
		if err := r.RunTo(free, 4); err != nil || free.times < 4+int(r.Total.Work/askingWork/4) {
			t.Errorf("%v after %d times in %d of work", err, free.times, r.Total.Work)
		}
		ending := &asked{Context: context.Background(), until: 10}
		s, _, err := Simulate(ending, seldom(), Options{Seed: 1, Accuracy: -1, MaxTrials: 1e9, Workers: 1, Slots: slots})
		if !errors.Is(err, context.Canceled) || ending.times != 11 {
			t.Errorf("%v, %v after %d times", s, err, ending.times)
		}
	}
}
