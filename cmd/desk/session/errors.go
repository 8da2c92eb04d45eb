package session

import (
	"errors"
	"strings"

	"arrayodds/array/record"
	"arrayodds/array/site"
	"arrayodds/sim/choose"
	"arrayodds/sim/engine"
	"arrayodds/sim/study"
	"arrayodds/sim/trace"
)

// userError is one thing that is wrong with what the user gave.
type userError struct {
	Line int    `json:"line,omitempty"` // of the site file, from 1; 0: no line of it
	Path string `json:"path,omitempty"` // "drives.12 TB.capacity", or the flag that an argument stands for; empty where none can be named
	Text string `json:"text"`
}

// wrong is the answer to a request that cannot be answered for what the user gave.
type wrong struct {
	Errors []userError `json:"errors"`
}

// argumentErrors is what is wrong with the arguments of a request. The path of each is
// that of a flag.
type argumentErrors []userError

// Error returns one line for each error.
func (e argumentErrors) Error() string {
	lines := make([]string, len(e))
	for i := range e {
		lines[i] = e[i].Text
	}
	return strings.Join(lines, "\n")
}

// userErrors returns an error that the user has to mend; nil for any other.
func userErrors(err error) (all []userError) {
	if errs, ok := errors.AsType[site.Errors](err); ok {
		return siteErrors(errs)
	}
	if errs, ok := errors.AsType[argumentErrors](err); ok {
		return errs
	}
	if errs, ok := errors.AsType[record.Errors](err); ok {
		for _, e := range errs {
			all = append(all, userError{Text: e.Error()})
		}
		return all
	}
	if errs, ok := errors.AsType[study.BusyErrors](err); ok {
		for _, busy := range errs {
			all = append(all, userError{Text: busy.Error()})
		}
		return all
	}
	for _, is := range []func(error) bool{is[*study.LimitError], is[choose.NoGoalError], is[choose.NothingError], is[*engine.BusyError], is[*trace.LongLifeError]} {
		if is(err) {
			return []userError{{Text: err.Error()}}
		}
	}
	if errors.Is(err, trace.ErrNoLoss) {
		return []userError{{Text: err.Error() + "; right would be only losses for a choice that can lose footage, or more trials"}}
	}
	return nil
}

// is reports whether an error is one of type E.
func is[E error](err error) bool {
	_, ok := errors.AsType[E](err)
	return ok
}

// siteErrors returns what is wrong with a site file. A line of the file is told apart
// from the text, any other place, such as a cell of a schedule, stands in it.
func siteErrors(errs site.Errors) (all []userError) {
	for _, e := range errs {
		u := userError{Path: e.Key, Text: e.Error()}
		if e.Place == "" && e.File == siteName {
			u.Line = e.Line
			_, u.Text, _ = strings.Cut(u.Text, ": ")
		}
		all = append(all, u)
	}
	return all
}
