package session

import (
	"context"

	"arrayodds/array/site/starter"
)

// begin is an invented site to begin with.
type begin struct {
	Name  string `json:"name"` // of its file, without an ending
	Title string `json:"title"`
	Says  string `json:"says"`
	Text  string `json:"text"`
}

// starters lists sites to begin with.
func (s *Session) starters(context.Context, request) (response, error) {
	var all []begin
	for _, site := range starter.Sites() {
		all = append(all, begin(site))
	}
	return response{answer: struct {
		Starters []begin `json:"starters"`
	}{all}}, nil
}
