package engine

import (
	"context"
	"errors"
	"sync"
	"testing"

	"arrayodds/array/thorough"
	"arrayodds/sim/model"
	"arrayodds/sim/simtest"
	"arrayodds/sim/stream"
)

// watched tells lives and counts how many are told at a time.
type watched struct {
	Simulator
	mu       *sync.Mutex
	at, most *int
}

func (w watched) Life(s *stream.Stream, t *model.Trial) bool {
	w.mu.Lock()
	*w.at++
	*w.most = max(*w.most, *w.at)
	w.mu.Unlock()
	defer func() {
		w.mu.Lock()
		*w.at--
		w.mu.Unlock()
	}()
	return w.Simulator.Life(s, t)
}

// Runs that share two slots never tell more than two lives at a time, however
// many workers they have, and their digits are those of a run alone.
func TestSlotsBoundRunsSideBySide(t *testing.T) {
	t.Parallel()
	site, choice := simtest.OftenFailing()
	sys, err := model.New(site, choice)
	if err != nil {
		t.Fatal(err)
	}
	var mu sync.Mutex
	at, most := 0, 0
	slots := NewSlots(2)
	const runs = 3
	blocks := thorough.Count(40, 20)
	var sums [runs]*model.Sums
	var group sync.WaitGroup
	for i := range runs {
		group.Go(func() {
			r := NewRunner(sys, Options{Seed: 1, Workers: 4, Slots: slots})
			for k, own := range r.simulators {
				r.simulators[k] = watched{own, &mu, &at, &most}
			}
			if err := r.RunTo(context.Background(), blocks); err != nil {
				t.Error(err)
			}
			sums[i] = r.Total
		})
	}
	group.Wait()
	if most > 2 {
		t.Errorf("%d lives were told at a time", most)
	}
	alone := NewRunner(sys, Options{Seed: 1, Workers: 1})
	if err := alone.RunTo(context.Background(), blocks); err != nil {
		t.Fatal(err)
	}
	for i, s := range sums {
		if s.N != alone.Total.N || s.Sum != alone.Total.Sum {
			t.Errorf("run %d of them comes to %v, alone it is %v", i, s.Sum, alone.Total.Sum)
		}
	}
}

// A run that waits for a slot ends with its context.
func TestWaitingForASlotEnds(t *testing.T) {
	t.Parallel()
	slots := NewSlots(1)
	if err := slots.take(context.Background()); err != nil {
		t.Fatal(err)
	}
	site, choice := simtest.OftenFailing()
	ctx, cancel := context.WithCancel(context.Background())
	cancel()
	sys, err := model.New(site, choice)
	if err != nil {
		t.Fatal(err)
	}
	if _, _, err := Simulate(ctx, sys, Options{Seed: 1, Accuracy: 0.1, MaxTrials: 1e6, Slots: slots}); !errors.Is(err, context.Canceled) {
		t.Errorf("it ended with %v", err)
	}
}
