package session

import (
	"context"
	"fmt"

	"arrayodds/sim/answer"
	"arrayodds/sim/study"
)

// paired is the answer of pair.
type paired struct {
	Points []string `json:"points"` // which is safer, how many times, at what cost, and the goal
	Safer  int      `json:"safer"`  // place; −1: neither, or it is not known
	Times  number   `json:"times"`  // the loss chance of the other ÷ that of the safer one
	Share  number   `json:"share"`  // of the settings in which the safer one is so
	Cost   number   `json:"cost"`   // of b less that of a over the service life
}

// pair sets two choices of the last comparison side by side.
func (s *Session) pair(_ context.Context, r request) (response, error) {
	var args struct {
		A int `json:"a"`
		B int `json:"b"`
	}
	if err := r.into(&args); err != nil {
		return response{}, err
	}
	c, ok := s.kept("compare").(study.Comparison)
	if !ok {
		return response{}, errNothingKept
	}
	for _, place := range []int{args.A, args.B} {
		if place < 0 || place >= len(c.Outcomes) {
			return response{}, fmt.Errorf("found choice %d of %d", place, len(c.Outcomes))
		}
	}
	d := answer.Between(c, args.A, args.B)
	return response{answer: paired{d.Says, d.Safer, number(d.Times), number(d.Share), number(d.Cost)}}, nil
}
