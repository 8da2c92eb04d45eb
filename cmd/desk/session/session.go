package session

import (
	"context"
	"encoding/json"
	"errors"
	"fmt"
	"runtime/debug"
	"sync"
)

// A Session answers the requests of a page. It keeps the reading of the last text and the
// results of the last requests. Requests may overlap.
type Session struct {
	mu       sync.Mutex
	readings []*reading     // the last ones, the latest first
	results  map[string]any // by op, for output
}

// New returns a session that has answered nothing.
func New() *Session { return &Session{results: map[string]any{}} }

// A request is what one call of [Session.Handle] is given.
type request struct {
	args  []byte
	files map[string][]byte
	tell  func(any)
}

// A response is what a request is answered: something that becomes a JSON object, and
// files beside it.
type response struct {
	answer any
	files  map[string][]byte
}

// ops are the requests by their names.
var ops = map[string]func(*Session, context.Context, request) (response, error){
	"read":      (*Session).read,
	"edit":      (*Session).edit,
	"starters":  (*Session).starters,
	"simulate":  (*Session).simulate,
	"replicate": (*Session).replicate,
	"compare":   (*Session).compare,
	"pair":      (*Session).pair,
	"curve":     (*Session).curve,
	"size":      (*Session).size,
	"choose":    (*Session).choose,
	"vary":      (*Session).vary,
	"rank":      (*Session).rank,
	"replay":    (*Session).replay,
	"lesson":    (*Session).lesson,
	"fit":       (*Session).fit,
	"plan":      (*Session).plan,
	"example":   (*Session).example,
	"now":       (*Session).now,
	"paths":     (*Session).paths,
	"formats":   (*Session).formats,
	"output":    (*Session).output,
}

// Handle answers one request. args and the answer are JSON objects; files go in and come
// out beside them, by their names. tell, where it is not nil, is called with JSON as an
// answer sharpens, by one goroutine at a time. The context is done when nobody wants the
// answer any more.
//
// What is wrong with what the user gave is part of the answer, as "errors". An error is
// the context's, or a defect of the program or of the page; a panic is one too.
func (s *Session) Handle(ctx context.Context, op string, args []byte, files map[string][]byte, tell func([]byte)) (answer []byte, out map[string][]byte, err error) {
	defer func() {
		if p := recover(); p != nil {
			answer, out = nil, nil
			err = fmt.Errorf("%s: %v, which is a defect of this program; please report it with the site file\n%s", op, p, debug.Stack())
		}
	}()
	handler := ops[op]
	if handler == nil {
		return nil, nil, fmt.Errorf("there is no request %q", op)
	}
	if err := checkFiles(files); err != nil {
		return nil, nil, err
	}
	r, err := handler(s, ctx, request{args: args, files: files, tell: telling(tell)})
	if errs := userErrors(err); errs != nil {
		r, err = response{answer: wrong{errs}}, nil
	}
	if err != nil {
		return nil, nil, err
	}
	if answer, err = json.Marshal(r.answer); err != nil {
		return nil, nil, fmt.Errorf("%s: %w", op, err)
	}
	return answer, r.files, nil
}

// telling returns what turns values into JSON for tell, which may be nil.
func telling(tell func([]byte)) func(any) {
	if tell == nil {
		return func(any) {}
	}
	return func(v any) {
		if text, err := json.Marshal(v); err == nil {
			tell(text)
		}
	}
}

// into reads the arguments of a request.
func (r request) into(args any) error {
	if err := json.Unmarshal(r.args, args); err != nil {
		return fmt.Errorf("arguments: %w", err)
	}
	return nil
}

// keep keeps a result for [Session.output].
func (s *Session) keep(op string, result any) {
	s.mu.Lock()
	defer s.mu.Unlock()
	s.results[op] = result
}

// kept returns the last result of an op; nil where there is none.
func (s *Session) kept(op string) any {
	s.mu.Lock()
	defer s.mu.Unlock()
	return s.results[op]
}

// errNothingKept is the error of a request for more of what was not asked for yet.
var errNothingKept = errors.New("nothing was worked out yet that this could be made of")
