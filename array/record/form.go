package record

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"slices"
	"strings"
)

// form is one of the forms that a record may have. Columns are the needed ones,
// then the others; their places are constants beside each form's reader.
type form struct {
	name    string
	needed  int
	columns []string
	reader  func(Options) taker
}

// taker takes the rows of one form.
type taker interface {
	row(*sheet)
	// record is what all rows add up to.
	record(*Errors) Record
}

var forms = []*form{&sums, &ages, &dates, &snapshots}

// limits of what is kept.
const (
	maxDrives   = 2_000_000
	maxLabels   = 10_000
	longestName = 200 // bytes
	maxColumns  = 10_000
)

// open reads the headings of a text. It returns nil where they are not those of
// a record, which the errors then say.
func open(name string, r *bufio.Reader, errs *Errors) (*sheet, error) {
	s := &sheet{name: name, in: r, errs: errs}
	if mark, err := r.Peek(3); err == nil || err == io.EOF {
		switch {
		case bytes.Equal(mark, []byte("\xef\xbb\xbf")):
			if _, err := r.Discard(3); err != nil {
				return nil, err
			}
		case bytes.HasPrefix(mark, []byte("\xff\xfe")), bytes.HasPrefix(mark, []byte("\xfe\xff")):
			s.line = 1
			s.wrongAt("", "text in UTF-16", "text in UTF-8")
			return nil, nil
		}
	}
	for {
		if s.read > maxBlank {
			s.line = s.read
			s.wrongAt("", fmt.Sprintf("more than %d blank rows one after the other", maxBlank), "a row of headings and the record below")
			return nil, nil
		}
		line, ok, err := s.nextLine()
		if err != nil {
			return nil, err
		}
		if !ok {
			if !s.stop && len(*errs) == 0 {
				errs.add(Error{File: name, Found: "nothing", Right: "a row of headings and the record below"})
			}
			return nil, nil
		}
		s.line = s.read
		s.sep = separator(line)
		if s.blank(line, s.sep) {
			continue
		}
		cut := s.sep
		if bytes.IndexByte(line, '"') >= 0 {
			if line, ok, err = s.unquote(line); !ok || line == nil {
				return nil, err
			}
			cut = 0
		}
		if n := bytes.Count(line, []byte{cut}) + 1; n > maxColumns {
			s.wrongAt("", fmt.Sprintf("%d headings", n), fmt.Sprintf("at most %d", maxColumns))
			return nil, nil
		}
		for _, h := range bytes.Split(line, []byte{cut}) {
			s.headings = append(s.headings, heading(h))
		}
		if !s.choose() {
			return nil, nil
		}
		return s, nil
	}
}

// separator returns the one of the three that stands most often in the headings.
func separator(line []byte) byte {
	best, most := byte(','), 0
	for _, sep := range []byte{'\t', ';', ','} {
		if n := bytes.Count(line, []byte{sep}); n > most {
			best, most = sep, n
		}
	}
	return best
}

// heading returns a heading as it is compared.
func heading(cell []byte) []byte {
	h := bytes.ToLower(bytes.TrimSpace(cell))
	return bytes.Map(func(r rune) rune {
		if r == ' ' || r == '-' || r == '\u00a0' {
			return '_'
		}
		return r
	}, h)
}

// choose finds the form that the headings are of, and where its columns are.
func (s *sheet) choose() bool {
	var whole []*form
	nearest, fewest := sums, 100
	for _, f := range forms {
		missing := f.missing(s.headings)
		if len(missing) == 0 {
			whole = append(whole, f)
		} else if n := len(missing); n < f.needed && n < fewest {
			nearest, fewest = *f, n
		}
	}
	switch {
	case len(whole) > 1:
		s.wrongAt("", fmt.Sprintf("the headings of two forms: %s, and %s", whole[0].name, whole[1].name), "those of one: rename the columns that are not meant")
		return false
	case len(whole) == 0 && fewest < 100:
		s.wrongAt("", "headings without "+strings.Join(nearest.missing(s.headings), ", "), fmt.Sprintf("all of %s (the form: %s)", strings.Join(nearest.columns[:nearest.needed], ", "), nearest.name))
		return false
	case len(whole) == 0:
		var all []string
		for _, f := range forms {
			all = append(all, strings.Join(f.columns[:f.needed], ", "))
		}
		s.wrongAt("", shown(bytes.Join(s.headings, []byte(", ")))+" as headings", strings.Join(all, "; or "))
		return false
	}
	s.form = whole[0]
	s.cells = make([][]byte, len(s.form.columns))
	s.slots = make([]int, len(s.headings))
	for i, h := range s.headings {
		s.slots[i] = slices.Index(s.form.columns, string(h))
		place := s.slots[i]
		if place < 0 {
			continue
		}
		if s.cells[place] != nil {
			s.wrongAt(s.form.columns[place], "it twice among the headings", "one column of that name")
			return false
		}
		s.cells[place] = empty
		s.wanted = i + 1
	}
	return true
}

// missing lists the needed columns that are not among the headings.
func (f *form) missing(headings [][]byte) []string {
	var out []string
	for _, c := range f.columns[:f.needed] {
		if !slices.ContainsFunc(headings, func(h []byte) bool { return string(h) == c }) {
			out = append(out, c)
		}
	}
	return out
}
