package sample

import (
	"slices"
	"testing"

	"arrayodds/sim/history"
)

// By hand: weights of 1, 3, 0.5 and 2 add up to 1, 4, 4.5 and 6.5, and pass the marks 0.5,
// 2, 3.5 and 6 so often.
func TestPassed(t *testing.T) {
	t.Parallel()
	s := New([]float64{0.5, 2, 3.5, 6}, nil)
	var passed []int
	for _, w := range []float64{1, 3, 0.5, 2} {
		passed = append(passed, s.Passed(w))
	}
	if !slices.Equal(passed, []int{1, 2, 0, 1}) || len(s.Marks) != 0 {
		t.Errorf("%v marks are passed, %v are left", passed, s.Marks)
	}
}

// Two lines that share a step are caught each with its own, in the order of time. One with
// more steps than a history may have is not.
func TestCatch(t *testing.T) {
	t.Parallel()
	var shared *Past
	shared = shared.Then(history.Step{At: 1})
	first, second := shared.Then(history.Step{At: 2}), shared.Then(history.Step{At: 3})
	s := New(nil, nil)
	s.Catch(history.History{}, first)
	s.Catch(history.History{}, second.Then(history.Step{At: 4}))
	for i, want := range [][]float64{{1, 2}, {1, 3, 4}} {
		var got []float64
		for _, step := range s.Caught[i].Steps {
			got = append(got, step.At)
		}
		if !slices.Equal(got, want) {
			t.Errorf("line %d has steps at %v, should be %v", i, got, want)
		}
	}
	for range history.MaxEvents {
		shared = shared.Then(history.Step{})
	}
	s.Catch(history.History{}, shared)
	if !s.TooLong || len(s.Caught) != 2 {
		t.Errorf("too long is %t, of %d histories", s.TooLong, len(s.Caught))
	}
}
