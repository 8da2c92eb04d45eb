package record

import (
	"bufio"
	"bytes"
	"fmt"
	"io"
	"unicode/utf8"
)

// maxRow bounds a row in bytes, so that a file without line ends is not read
// into memory.
const maxRow = 1 << 20

// sheet reads one text row by row. Its cells are those of the columns that the
// form knows, by their place in the form, and stand until the next row.
type sheet struct {
	name  string
	in    *bufio.Reader
	line  int   // of the row: where it begins
	read  int   // lines read
	first int32 // as of [member]

	sep      byte
	headings [][]byte
	form     *form
	slots    []int    // for each column of the text, the place in the form, or -1
	cells    [][]byte // by place; nil where the text has no such column
	wanted   int      // columns up to the last one the form knows

	unquoted []byte
	errs     *Errors
	stop     bool // nothing more can be read
}

// wrongAt adds an error at this row.
func (s *sheet) wrongAt(column, found, right string) {
	if !s.errs.add(Error{File: s.name, Line: s.line, Column: column, Found: found, Right: right}) {
		s.stop = true
	}
}

// wrong adds an error at a cell of this row.
func (s *sheet) wrong(place int, right string) {
	s.wrongAt(s.form.columns[place], shown(s.cells[place]), right)
}

// nextLine returns the next line without its end. At the end of the text it is
// false, and what went wrong there stands in the errors or is returned.
func (s *sheet) nextLine() ([]byte, bool, error) {
	line, err := s.in.ReadSlice('\n')
	if len(line) > 0 {
		s.read++
	}
	switch {
	case err == bufio.ErrBufferFull:
		s.line = s.read
		s.wrongAt("", fmt.Sprintf("a row of more than %d bytes", maxRow), "text with a line for each row")
		return nil, false, nil
	case err == io.EOF && len(line) == 0:
		return nil, false, nil
	case err != nil && err != io.EOF:
		return nil, false, damaged(s.name, s.read, err)
	}
	line = bytes.TrimSuffix(line, []byte("\n"))
	return bytes.TrimSuffix(line, []byte("\r")), true, nil
}

// maxBlank bounds the blank rows one after the other: there may be any number of rows
// that say something.
const maxBlank = 1_000_000

// next goes to the next row that is not blank.
func (s *sheet) next() (bool, error) {
	for blank := 0; !s.stop; blank++ {
		if blank > maxBlank {
			s.wrongAt("", fmt.Sprintf("more than %d blank rows one after the other", maxBlank), "the record alone")
			s.stop = true
			return false, nil
		}
		line, ok, err := s.nextLine()
		if !ok {
			return false, err
		}
		s.line = s.read
		if bytes.IndexByte(line, '"') >= 0 {
			line, ok, err = s.unquote(line)
			if !ok {
				return false, err
			}
			if s.split(line, 0) {
				return true, nil
			}
		} else if s.split(line, s.sep) {
			return true, nil
		}
	}
	return false, nil
}

// split cuts a line into cells. Cells that were in quotes are parted by a byte
// 0. It is false where the row is blank or has cells too many.
func (s *sheet) split(line []byte, sep byte) bool {
	rest, column := line, 0
	for ; column < s.wanted; column++ {
		cell := rest
		i := bytes.IndexByte(rest, sep)
		if i >= 0 {
			cell = rest[:i]
		}
		if place := s.slots[column]; place >= 0 {
			s.cells[place] = bytes.TrimSpace(cell)
		}
		if i < 0 {
			rest = nil
			column++
			break
		}
		rest = rest[i+1:]
	}
	if column < s.wanted { // cells missing at the end are blank
		if len(bytes.TrimSpace(line)) == 0 {
			return false
		}
		for ; column < s.wanted; column++ {
			if place := s.slots[column]; place >= 0 {
				s.cells[place] = empty
			}
		}
		return !s.blank(line, sep)
	}
	if s.wanted+bytes.Count(rest, []byte{sep})+1 > len(s.headings) && rest != nil {
		// Blank cells too many at the end are nothing to complain of.
		filled := bytes.TrimRight(rest, string([]byte{sep, ' ', '\t'}))
		if n := s.wanted + bytes.Count(filled, []byte{sep}) + 1; len(filled) > 0 && n > len(s.headings) {
			s.wrongAt("", fmt.Sprintf("%d cells", n), fmt.Sprintf("%d, one for each heading", len(s.headings)))
			return false
		}
	}
	return !s.blank(line, sep)
}

var empty = []byte{}

// blank reports whether there is nothing in a row but separators.
func (s *sheet) blank(line []byte, sep byte) bool {
	if len(line) > 0 && line[0] != sep && line[0] != ' ' && line[0] != '\t' {
		return false
	}
	return len(bytes.Trim(line, string([]byte{sep, ' ', '\t'}))) == 0
}

// unquote writes a row that has quotes in it anew, its cells parted by a byte 0.
// A cell may hold line ends, and a quote as two.
func (s *sheet) unquote(line []byte) ([]byte, bool, error) {
	out := s.unquoted[:0]
	defer func() { s.unquoted = out[:0] }()
	if bytes.IndexByte(line, 0) >= 0 { // which parts cells here
		s.wrongAt("", "a NUL character", "text without it")
		return nil, !s.stop, nil
	}
	for i := 0; ; {
		// At the beginning of a cell.
		for i < len(line) && line[i] == ' ' {
			i++
		}
		if i == len(line) || line[i] != '"' {
			end := bytes.IndexByte(line[i:], s.sep)
			if end < 0 {
				return append(out, line[i:]...), true, nil
			}
			out = append(append(out, line[i:i+end]...), 0)
			i += end + 1
			continue
		}
		i++
		for {
			end := bytes.IndexByte(line[i:], '"')
			if end >= 0 {
				out = append(out, line[i:i+end]...)
				i += end + 1
				if i < len(line) && line[i] == '"' {
					out = append(out, '"')
					i++
					continue
				}
				break
			}
			out = append(append(out, line[i:]...), ' ')
			next, ok, err := s.nextLine()
			if !ok || len(out)+len(next) > maxRow {
				if err == nil && !s.stop {
					s.wrongAt("", "a quote that is opened and not closed", "a quote at both ends of a cell, or none")
					s.stop = true
				}
				return nil, false, err
			}
			if line, i = next, 0; bytes.IndexByte(line, 0) >= 0 {
				s.wrongAt("", "a NUL character", "text without it")
				return nil, !s.stop, nil
			}
		}
		for i < len(line) && line[i] == ' ' {
			i++
		}
		if i == len(line) {
			return out, true, nil
		}
		if line[i] != s.sep {
			s.wrongAt("", shown(line[i:])+" after a closing quote", "the next cell")
			return nil, !s.stop, nil // a blank row: passed over
		}
		out = append(out, 0)
		i++
	}
}

// label returns the text of a cell that names something.
func (s *sheet) label(place int, most int) (string, bool) {
	cell := s.cells[place]
	if len(cell) > most {
		s.wrong(place, fmt.Sprintf("at most %d bytes", most))
		return "", false
	}
	if !utf8.Valid(cell) || bytes.IndexByte(cell, 0) >= 0 {
		s.wrong(place, "text in UTF-8, without NUL characters")
		return "", false
	}
	return string(cell), true
}
