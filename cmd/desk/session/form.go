package session

import (
	"context"
	"fmt"

	"arrayodds/array/site/form"
)

// formAnswer is what a page draws a site file from: the form, and all that can be said of
// it without simulating.
type formAnswer struct {
	readAnswer
	Text   *string   `json:"text,omitempty"` // after a change
	Title  string    `json:"title"`          // what the reports call the site
	Form   form.Form `json:"form"`
	Wanted []string  `json:"wanted"` // files that the site names and that did not come with it
}

// formOf returns what is said of a text: the sizes where nothing is wrong with it, else
// the errors, each with the path of its field.
func (s *Session) formOf(text string, files map[string][]byte) (formAnswer, error) {
	read := s.readForm(text, files)
	out := formAnswer{Form: read.form, Wanted: read.files.wanted()}
	if read.source == nil {
		out.Errors = mistakes(read.form)
		return out, nil
	}
	f := read.source.File()
	var err error
	if out.readAnswer, err = readAnswerOf(f); err != nil {
		return formAnswer{}, err
	}
	out.Title = f.Site.Name
	return out, nil
}

// paths lists the inputs of a site that one may want to vary, as they are typed.
func (s *Session) paths(_ context.Context, r request) (response, error) {
	var args siteArgs
	if err := r.into(&args); err != nil {
		return response{}, err
	}
	all := []string{}
	if read := s.readForm(args.Text, r.files); read.source != nil {
		for _, in := range read.source.Inputs() {
			all = append(all, in.Axis.Path)
		}
	}
	return response{answer: struct {
		Paths []string `json:"paths"`
	}{all}}, nil
}

// edit changes the text of a site file.
func (s *Session) edit(_ context.Context, r request) (response, error) {
	var args struct {
		siteArgs
		Change form.Change `json:"change"`
	}
	if err := r.into(&args); err != nil {
		return response{}, err
	}
	text, err := form.Edit([]byte(args.Text), args.Change)
	if err != nil {
		return response{}, argumentErrors{{Text: err.Error()}}
	}
	out, err := s.formOf(string(text), r.files)
	if err != nil {
		return response{}, err
	}
	fresh := string(text)
	out.Text = &fresh
	return response{answer: out}, nil
}

// mistakes lists what a form has that is wrong, in the order of the form.
func mistakes(f form.Form) (all []userError) {
	add := func(line int, path, label, said string) {
		if said != "" {
			all = append(all, userError{Line: line, Path: path, Text: label + said})
		}
	}
	var fields func([]form.Field, string)
	fields = func(some []form.Field, of string) {
		for _, field := range some {
			add(field.Line, field.Path, of+field.Label+": ", field.Error)
			fields(field.Fields, of+field.Label+", ")
		}
	}
	var sections func([]form.Section, string)
	sections = func(some []form.Section, of string) {
		for _, section := range some {
			add(0, section.Path, of+section.Title+": ", section.Error)
			if section.Source != nil {
				add(section.Source.Line, section.Source.Path, of+section.Source.Label+": ", section.Source.Error)
			}
			for _, item := range section.Items {
				within := of
				if item.Label != "" {
					within = fmt.Sprintf("%s%s, ", of, item.Label)
				}
				add(item.Line, item.Path, within, item.Error)
				fields(item.Fields, within)
				sections(item.Sections, within)
			}
		}
	}
	for _, e := range f.Errors {
		all = append(all, userError{Line: e.Line, Text: e.Text})
	}
	sections(f.Sections, "")
	return all
}
