package session

import (
	"strings"

	"arrayodds/array/schedule/workbook"
	"arrayodds/array/site"
	"arrayodds/array/site/axis"
	"arrayodds/array/site/form"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
)

// siteName is what errors call the site file.
const siteName = "site.toml"

// mostReadings is how many readings are kept: with choices, and without.
const mostReadings = 2

// reading is a site file that was read.
type reading struct {
	text            string
	files           *memory
	choicesOptional bool
	form            form.Form    // where choices are optional
	source          *axis.Source // nil where it could not be read
	err             error
}

// siteArgs are the arguments of every request about a site.
type siteArgs struct {
	Text string `json:"text"`
}

// reading reads the site file of a request, or returns it as it was read before. The
// error is of type [site.Errors] where the file is at fault.
func (s *Session) reading(text string, files map[string][]byte, choicesOptional bool) (*reading, error) {
	r := s.readOnce(text, files, choicesOptional)
	return r, r.err
}

// readForm reads a site file that need not have choices, and need not be right.
func (s *Session) readForm(text string, files map[string][]byte) *reading {
	return s.readOnce(text, files, true)
}

func (s *Session) readOnce(text string, files map[string][]byte, choicesOptional bool) *reading {
	s.mu.Lock()
	defer s.mu.Unlock()
	beside := newMemory(files)
	for i, r := range s.readings {
		if r.choicesOptional == choicesOptional && r.text == text && r.files.same(beside) {
			s.readings[0], s.readings[i] = r, s.readings[0]
			return r
		}
	}
	r := &reading{text: text, files: beside, choicesOptional: choicesOptional}
	opts := []site.Option{site.Beside(beside), site.Workbooks(workbook.Read)}
	if choicesOptional {
		var errs site.Errors
		if r.form, r.source, errs = form.Read([]byte(text), siteName, append(opts, site.ChoicesOptional())...); errs != nil {
			r.err = errs
		}
	} else {
		r.source, r.err = axis.Open(strings.NewReader(text), siteName, opts...)
	}
	s.readings = append([]*reading{r}, s.readings[:min(len(s.readings), mostReadings-1)]...)
	return r
}

// request returns what is asked of a site as it stands: of all its choices, as the file
// says that it is to be simulated, by one worker.
func (r *reading) request() study.Request {
	f := r.source.File()
	asked := study.Request{Source: r.source, Options: engine.Options{Seed: f.Run.Seed, Accuracy: f.Run.Accuracy, MaxTrials: f.Run.MaxTrials, Workers: 1}}
	for i := range f.Site.Choices {
		asked.Choices = append(asked.Choices, i)
	}
	return asked
}
