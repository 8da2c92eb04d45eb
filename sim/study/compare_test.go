package study

import (
	"context"
	"errors"
	"strings"
	"testing"

	"arrayodds/array"
	"arrayodds/sim"
	"arrayodds/sim/engine"
)

// Choices in the order in which they are asked for, against the chain, with a
// progress that only grows.
func TestCompareAgreesWithTheChain(t *testing.T) {
	t.Parallel()
	a := asked(t, chained, 1, 0)
	share, calls := 0.0, 0
	a.Options.Progress = func(p engine.Progress) {
		if p.Share < share || p.Share > 1 {
			t.Errorf("the share done goes from %g to %g", share, p.Share)
		}
		share, calls = p.Share, calls+1
	}
	got, err := Compare(context.Background(), a, sim.Run)
	if err != nil {
		t.Fatal(err)
	}
	if calls == 0 || share < 0.5 {
		t.Errorf("progress was told %d times, at last of %g", calls, share)
	}
	if got.Seed != 1 || got.Accuracy != 0.03 || got.Plain || len(got.Assumptions) == 0 {
		t.Errorf("%+v", got)
	}
	for i, want := range []struct {
		label             string
		drives, tolerance int
	}{{"six", 6, 2}, {"five", 5, 1}} {
		o := got.Outcomes[i]
		if o.Choice.Label != want.label || o.Sizing.Usable != 16*array.TB { // four drives' worth of footage in both
			t.Errorf("outcome %d is %q of %g bytes", i, o.Choice.Label, o.Sizing.Usable)
		}
		within(t, want.label, o.Result.LossChance, chain(want.drives, want.tolerance, 0.02, 48))
	}
}

// A choice that is too busy is marked; where all are, each is named, and so is a
// choice whose simulation fails.
func TestCompareTooBusy(t *testing.T) {
	t.Parallel()
	a := asked(t, chained, 0, 1)
	busy := func(label string) Simulator {
		return func(_ context.Context, _ array.Site, c array.Choice, _ engine.Options) (sim.Result, error) {
			if c.Label != label && label != "all" {
				return sim.Result{Trials: 7}, nil
			}
			e := &engine.BusyError{Choice: c.Label, Failures: 440}
			return sim.TooBusy(e), e
		}
	}
	got, err := Compare(context.Background(), a, busy("six"))
	if err != nil || got.Outcomes[0].Result.Trials != 7 || got.Outcomes[1].Simulated() {
		t.Errorf("%+v, %v", got.Outcomes, err)
	}
	_, err = Compare(context.Background(), a, busy("all"))
	all, ok := errors.AsType[BusyErrors](err)
	if !ok || len(all) != 2 || !strings.Contains(err.Error(), `choice "five"`) || !strings.Contains(err.Error(), "\nchoice \"six\"") {
		t.Errorf("%v", err)
	}
	fails := func(context.Context, array.Site, array.Choice, engine.Options) (sim.Result, error) {
		return sim.Result{}, errors.New("a made-up fault")
	}
	a.Choices = a.Choices[:1]
	if _, err := Compare(context.Background(), a, fails); err == nil || err.Error() != `choice "five": a made-up fault` {
		t.Errorf("%v", err)
	}
}
