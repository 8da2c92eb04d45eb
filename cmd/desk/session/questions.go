package session

import (
	"bytes"
	"context"
	"fmt"

	"arrayodds/sim/choose"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
	"arrayodds/sim/teach"
)

// pointed is an answer in short sentences; the whole of it is in the outputs.
type pointed struct {
	Points []string `json:"points"`
}

// telling returns a progress that is told to the page.
func (r request) telling() func(engine.Progress) {
	return func(p engine.Progress) { r.tell(done{p.Share}) }
}

// asked returns what a question asks, of the choices and with the options that its
// arguments say, by one worker.
func (q *question) asked(r request, choices []int) study.Request {
	asked := study.Request{Source: q.source, Choices: choices, Options: q.Options(q.file())}
	asked.Options.Workers, asked.Options.Progress = 1, r.telling()
	return asked
}

// choose searches for the cheapest design that meets the goal.
func (s *Session) choose(ctx context.Context, r request) (response, error) {
	q, err := s.question(r, true)
	if err != nil {
		return response{}, err
	}
	asked := choose.Request{Source: q.source, Bays: q.Bays(), Spares: q.MostSpares(), Options: q.asked(r, nil).Options}
	q.CheckGoal(q.file(), siteName)
	if err := q.err(); err != nil {
		return response{}, err
	}
	found, err := choose.Find(ctx, asked)
	if err != nil {
		return response{}, err
	}
	s.keep("choose", found)
	out := struct {
		pointed
		Text string `json:"text"` // the site file with the designs in it; empty where none can be put there
	}{pointed{append([]string{}, found.Says...)}, found.SiteFile}
	if next := found.NextWords(); next != "" {
		out.Points = append(out.Points, next)
	}
	return response{answer: out}, nil
}

// vary simulates choices over the values of one or two inputs.
func (s *Session) vary(ctx context.Context, r request) (response, error) {
	q, err := s.question(r, false)
	if err != nil {
		return response{}, err
	}
	if !q.IsSet("over") {
		q.Wrong("no --over given, so there is nothing to vary")
	}
	varying := q.Variation(q.asked(r, q.Choices(q.file())))
	if err := q.err(); err != nil {
		return response{}, err
	}
	found, err := study.Vary(ctx, varying)
	if err != nil {
		return response{}, err
	}
	s.keep("vary", found)
	return response{answer: pointed{sweepPoints(found)}}, nil
}

// rank tells which input matters most.
func (s *Session) rank(ctx context.Context, r request) (response, error) {
	q, err := s.question(r, false)
	if err != nil {
		return response{}, err
	}
	asked := q.asked(r, q.Choices(q.file()))
	if err := q.err(); err != nil {
		return response{}, err
	}
	found, err := study.Rank(ctx, asked, q.Bool("thorough"))
	if err != nil {
		return response{}, err
	}
	s.keep("rank", found)
	return response{answer: pointed{rankingPoints(found)}}, nil
}

// replay follows single lives of one choice.
func (s *Session) replay(ctx context.Context, r request) (response, error) {
	q, err := s.question(r, false)
	if err != nil {
		return response{}, err
	}
	asked := q.asked(r, []int{q.OneChoice(q.file())})
	lives := q.Lives()
	if err := q.err(); err != nil {
		return response{}, err
	}
	found, err := study.TraceLives(ctx, asked, lives, q.Bool("only-losses"))
	if err != nil {
		return response{}, err
	}
	s.keep("replay", found)
	return response{answer: pointed{replayPoints(found)}}, nil
}

// lesson asks questions about one choice, and answers them.
func (s *Session) lesson(ctx context.Context, r request) (response, error) {
	q, err := s.question(r, false)
	if err != nil {
		return response{}, err
	}
	asked := q.asked(r, []int{q.ChoiceToTeach(q.file())})
	more := q.Questions()
	if err := q.err(); err != nil {
		return response{}, err
	}
	var found teach.Lesson
	if q.Bool("without-answers") {
		found, err = teach.Ask(asked, more...)
	} else {
		found, err = teach.Run(ctx, asked, more...)
	}
	if err != nil {
		return response{}, err
	}
	s.keep("lesson", found)
	return response{answer: pointed{lessonPoints(found)}}, nil
}

// fit finds life laws in the record of a fleet, which comes as the file "record".
func (s *Session) fit(ctx context.Context, r request) (response, error) {
	given, err := valuesOf(r.args)
	if err != nil {
		return response{}, err
	}
	q := &question{}
	q.Reader = q.reader(given)
	data, ok := r.files["record"]
	if !ok {
		return response{}, fmt.Errorf("there is no file record")
	}
	found, err := q.fitted(ctx, bytes.NewReader(data), given.String("name"))
	if err != nil {
		return response{}, err
	}
	s.keep("fit", found)
	return response{answer: fitAnswerOf(found)}, nil
}
