package session

import (
	"bytes"
	"encoding/json"
	"fmt"
	"strings"
	"unicode"

	"arrayodds/array/site"
	"arrayodds/cmd/arrayodds/flags"
)

// values are the arguments of a request as the flags of the command of that name:
// "asSafeAs" is --as-safe-as, and lists are of the singular, "choices" of --choice. What
// is null, empty or false is not given.
type values map[string][]string

// plurals are the arguments that are lists, with their flags.
var plurals = map[string]string{"choices": "choice", "questions": "question"}

// valuesOf reads the arguments of a request.
func valuesOf(args []byte) (values, error) {
	var all map[string]any
	decoder := json.NewDecoder(bytes.NewReader(args))
	decoder.UseNumber() // as they are written
	if err := decoder.Decode(&all); err != nil {
		return nil, fmt.Errorf("arguments: %w", err)
	}
	out := values{}
	for name, v := range all {
		flag := flagOf(name)
		list, isList := v.([]any)
		if !isList {
			list = []any{v}
		}
		for _, item := range list {
			switch item {
			case nil, "", false:
				continue
			}
			out[flag] = append(out[flag], fmt.Sprint(item))
		}
	}
	return out, nil
}

// flagOf returns the flag that an argument stands for.
func flagOf(name string) string {
	if flag, ok := plurals[name]; ok {
		return flag
	}
	var b strings.Builder
	for _, r := range name {
		if r >= 'A' && r <= 'Z' {
			b.WriteByte('-')
		}
		b.WriteRune(unicode.ToLower(r))
	}
	return b.String()
}

// IsSet reports whether a flag is given.
func (v values) IsSet(name string) bool { return len(v[name]) > 0 }

// String returns the value of a flag, "" where it is not given.
func (v values) String(name string) string {
	if len(v[name]) == 0 {
		return ""
	}
	return v[name][0]
}

// Bool returns the value of a switch.
func (v values) Bool(name string) bool { return v.String(name) == "true" }

// StringSlice returns the values of a flag.
func (v values) StringSlice(name string) []string { return v[name] }

// question is what a request asks of a site, as it is read.
type question struct {
	flags.Reader
	*reading
	errs argumentErrors
}

// question reads the site and the arguments of a request. Its error is that of the site.
func (s *Session) question(r request, choicesOptional bool) (*question, error) {
	given, err := valuesOf(r.args)
	if err != nil {
		return nil, err
	}
	q := &question{}
	q.Reader = q.reader(given)
	if q.reading, err = s.reading(given.String("text"), r.files, choicesOptional); err != nil {
		return nil, err
	}
	return q, nil
}

// reader returns a reader of flags that notes what is wrong with them.
func (q *question) reader(given values) flags.Reader {
	return flags.Reader{Values: given, Fine: func() bool { return len(q.errs) == 0 }, Wrong: func(format string, args ...any) {
		text := fmt.Sprintf(format, args...)
		path := ""
		if rest, ok := strings.CutPrefix(text, "--"); ok {
			path, _, _ = strings.Cut(rest, " ")
			path = strings.TrimSuffix(path, ":")
		}
		q.errs = append(q.errs, userError{Path: path, Text: text})
	}}
}

// err returns what is wrong with the arguments, nil where nothing is.
func (q *question) err() error {
	if len(q.errs) == 0 {
		return nil
	}
	return q.errs
}

// file returns the site file.
func (q *question) file() *site.File { return q.source.File() }
