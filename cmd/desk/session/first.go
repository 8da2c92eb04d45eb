package session

import (
	"context"
	"encoding/json"
)

// First is what a page can show of its site before the engine in it runs: what read
// answers, and of each choice the first figures that simulate tells.
type First struct {
	Read    json.RawMessage   `json:"read"`
	Figures []json.RawMessage `json:"figures"` // by choice; fewer or null where there are none
}

// First figures are worked out of so many choices, with so many drives in all: mostly
// some hundredths of a second each, but a page must not take long to write.
const (
	mostFigures = 40
	mostDrives  = 1500
)

// NewFirst works out what a page shows first of a site and the files that it names, the
// same at each call. The error is the context's, or a defect of the program.
func NewFirst(ctx context.Context, text string, files map[string][]byte) (First, error) {
	s := New()
	asked := siteArgs{Text: text}
	args, err := json.Marshal(asked)
	if err != nil {
		return First{}, err
	}
	read, _, err := s.Handle(ctx, "read", args, files, nil)
	if err != nil {
		return First{}, err
	}
	first := First{Read: read}
	var sized readAnswer
	if err := json.Unmarshal(read, &sized); err != nil {
		return First{}, err
	}
	if len(sized.Errors) > 0 || len(sized.Sizes) == 0 {
		return first, nil
	}
	opened, err := s.reading(text, files, false)
	if err != nil {
		return First{}, err
	}
	drives := 0
	for i, c := range opened.source.File().Site.Choices[:min(len(sized.Sizes), mostFigures)] {
		if drives += c.Drives; drives > mostDrives {
			break
		}
		figure, err := s.firstFigure(ctx, simulateArgs{asked, i}, files)
		if err != nil {
			return First{}, err
		}
		first.Figures = append(first.Figures, figure)
	}
	return first, nil
}

// firstFigure returns what simulate tells first, and ends it there; null where it has
// nothing to tell.
func (s *Session) firstFigure(ctx context.Context, asked simulateArgs, files map[string][]byte) (json.RawMessage, error) {
	args, err := json.Marshal(asked)
	if err != nil {
		return nil, err
	}
	enough, end := context.WithCancel(ctx)
	defer end()
	told := json.RawMessage("null")
	_, _, err = s.Handle(enough, "simulate", args, files, func(tell []byte) {
		if enough.Err() == nil {
			told = tell
		}
		end()
	})
	if err != nil && (ctx.Err() != nil || enough.Err() == nil) {
		return nil, err
	}
	return told, nil
}
