// Package sample draws first losses, with all that led to them, from the lives of a
// simulator.
//
// A first loss of a line is a sample of the law of lives up to their first loss, with the
// weight with which it is counted; those are caught at which the sum of these weights passes
// given marks. Marks that lie evenly so draw in proportion to weight.
package sample

import (
	"slices"

	"arrayodds/sim/history"
	"arrayodds/sim/stream"
)

// Losses are first losses that are caught. Make it with [New].
//
// To catch them changes no digit of what a simulator computes: what has to be drawn for it
// comes from a stream of its own.
type Losses struct {
	Marks   []float64         // still to be passed, ascending
	Caught  []history.History // one for each mark passed
	TooLong bool              // a line had more than history.MaxEvents steps and was not caught

	Stream *stream.Stream // for what is drawn beside the lives
	sum    float64        // weight of first losses so far
}

// New returns what catches the first losses at these marks, ascending sums of weights.
func New(marks []float64, rnd *stream.Stream) *Losses {
	return &Losses{Marks: marks, Stream: rnd}
}

// Passed counts a first loss of weight w and returns how many marks it passes: mostly none.
func (s *Losses) Passed(w float64) (marks int) {
	s.sum += w
	for marks < len(s.Marks) && s.Marks[marks] <= s.sum {
		marks++
	}
	s.Marks = s.Marks[marks:]
	return marks
}

// Catch adds a history, whose steps are those of a past.
func (s *Losses) Catch(h history.History, past *Past) {
	if past != nil && past.depth > history.MaxEvents {
		s.TooLong = true
		return
	}
	for p := past; p != nil; p = p.before {
		h.Steps = append(h.Steps, p.step)
	}
	slices.Reverse(h.Steps)
	s.Caught = append(s.Caught, h)
}

// Past is the steps of a line, the last one first; nil for none. Lines that branch share what
// lies before; so a step is never changed.
type Past struct {
	step   history.Step
	before *Past
	depth  int
}

// Then returns the past with a step added, where that may still be caught.
func (p *Past) Then(s history.Step) *Past {
	depth := 1
	if p != nil {
		depth += p.depth
	}
	if depth > history.MaxEvents+1 {
		return p
	}
	return &Past{s, p, depth}
}
