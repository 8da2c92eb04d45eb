package session

import (
	"bytes"
	"context"
	"fmt"

	"arrayodds/cmd/arrayodds/export"
)

// formats lists the formats that the last result of an op can be written in.
func (s *Session) formats(_ context.Context, r request) (response, error) {
	var args struct {
		Of string `json:"of"`
	}
	if err := r.into(&args); err != nil {
		return response{}, err
	}
	names := []string{}
	if result := s.kept(args.Of); result != nil {
		for _, f := range export.FormatsOf(result) {
			names = append(names, f.Name)
		}
	}
	return response{answer: struct {
		Formats []string `json:"formats"`
	}{names}}, nil
}

// output writes the last result of an op in one of the formats of package export: the
// bytes that the command of that name writes.
func (s *Session) output(_ context.Context, r request) (response, error) {
	var args struct {
		Of     string `json:"of"`
		Format string `json:"format"`
	}
	if err := r.into(&args); err != nil {
		return response{}, err
	}
	result := s.kept(args.Of)
	if result == nil {
		return response{}, fmt.Errorf("%s: %w", args.Of, errNothingKept)
	}
	for _, f := range export.FormatsOf(result) {
		if f.Name != args.Format {
			continue
		}
		var b bytes.Buffer
		if err := f.Write(&b, result); err != nil {
			return response{}, err
		}
		return response{answer: struct{}{}, files: map[string][]byte{"file": b.Bytes()}}, nil
	}
	return response{}, fmt.Errorf("no %s can be written of %s", args.Format, args.Of)
}
