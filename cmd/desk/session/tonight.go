package session

import (
	"context"
	"errors"
	"slices"
	"strings"

	"arrayodds/array/state"
	chartsnow "arrayodds/charts/now"
	"arrayodds/sim/now"
	"arrayodds/sim/plan"
)

// plan makes the sheets to build a choice.
func (s *Session) plan(ctx context.Context, r request) (response, error) {
	q, err := s.question(r, false)
	if err != nil {
		return response{}, err
	}
	asked := q.asked(r, []int{q.OneChoice(q.file())})
	if err := q.err(); err != nil {
		return response{}, err
	}
	made, err := plan.Make(ctx, asked)
	if err != nil {
		return response{}, err
	}
	s.keep("plan", made)
	return response{answer: pointed{[]string{}}}, nil
}

// stateName is what errors call the state file.
const stateName = "state.toml"

// example gives a state file to begin with.
func (s *Session) example(_ context.Context, r request) (response, error) {
	q, err := s.question(r, false)
	if err != nil {
		return response{}, err
	}
	choice := q.ChoiceToTeach(q.file())
	if err := q.err(); err != nil {
		return response{}, err
	}
	c := q.file().Site.Choices[choice]
	return response{answer: struct {
		State string `json:"state"`
	}{state.Example(c.Label, c.Drives)}}, nil
}

// now tells what is to be done about an array as it stands, or draws one to practise on.
func (s *Session) now(ctx context.Context, r request) (response, error) {
	q, err := s.question(r, false)
	if err != nil {
		return response{}, err
	}
	f := q.file()
	opt := q.asked(r, nil).Options
	if !q.Bool("drill") {
		read, err := state.Read(strings.NewReader(q.Values.String("state")), stateName, f.Site.Choices, q.Values.String("choice"))
		if err != nil {
			return response{}, err
		}
		if err := q.err(); err != nil {
			return response{}, err
		}
		found, err := now.Ask(ctx, now.Asked(f, read, opt))
		if err != nil {
			return response{}, err
		}
		s.keep("now", found)
		return response{answer: pointed{orEmpty(slices.Concat(found.Says.Do, found.Says.Dont))}}, nil
	}
	choice := q.ChoiceToTeach(f)
	if err := q.err(); err != nil {
		return response{}, err
	}
	asked, err := now.Practice(ctx, f, choice, opt)
	if errors.Is(err, now.ErrQuiet) {
		return response{}, argumentErrors{{Text: err.Error() + "; right would be a choice with redundancy, a longer service life or another seed"}}
	}
	if err != nil {
		return response{}, err
	}
	found, err := now.Ask(ctx, asked)
	if err != nil {
		return response{}, err
	}
	s.keep("now", chartsnow.Drill{Result: found, File: state.Write(found.Choice.Label, found.State)})
	return response{answer: pointed{orEmpty(found.Says.Do)}}, nil
}
