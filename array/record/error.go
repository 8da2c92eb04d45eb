package record

import (
	"cmp"
	"fmt"
	"slices"
	"strings"

	"arrayodds/array/unit"
)

// Error is one thing that is wrong with a record.
type Error struct {
	File   string // of an archive: archive/member
	Line   int    // from 1; 0 where the file as a whole is meant
	Column string // its heading; empty where no column can be named
	Found  string
	Right  string // what would be right
	More   int    // rows below in which the same is wrong
	kind   string // what would be right, without the figures of the row
}

// Error returns one line: file:line: column: found X; right would be Y ... and 20 more
// rows like it.
func (e Error) Error() string {
	var b strings.Builder
	b.WriteString(e.File)
	if e.Line > 0 {
		fmt.Fprintf(&b, ":%d", e.Line)
	}
	b.WriteString(": ")
	if e.Column != "" {
		b.WriteString(e.Column + ": ")
	}
	fmt.Fprintf(&b, "found %s; right would be %s", e.Found, e.Right)
	if e.More > 0 {
		fmt.Fprintf(&b, " ... and %s like it", moreRows(e.More))
	}
	return b.String()
}

func moreRows(n int) string {
	if n == 1 {
		return "1 more row"
	}
	return unit.Digits(float64(n), 15) + " more rows"
}

// Errors is what is wrong with a record, in the order in which it was read.
type Errors []Error

// Error returns one line for each error.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i := range e {
		lines[i] = e[i].Error()
	}
	return strings.Join(lines, "\n")
}

// Bounds of the list: a reader of more would mend none. Reading ends there.
const (
	maxErrors    = 200
	maxAlike     = 8 // of what is wrong with one column in one way
	maxRowsWrong = 100_000
)

// moreErrors is found where reading ends because enough is wrong.
const moreErrors = "more errors"

// full reports whether reading has ended because enough is wrong.
func (e Errors) full() bool { return len(e) > 0 && e[len(e)-1].Found == moreErrors }

// add takes an error and says whether reading may go on. One that is equal to another
// but for its line is counted there, and so is one more of a kind of which there are
// some already.
func (e *Errors) add(err Error) bool {
	if e.full() {
		return false
	}
	err.kind = strings.Map(noDigit, err.Right)
	alike, rows := 0, 0
	var last *Error // of its kind
	for i := range *e {
		o := &(*e)[i]
		rows += 1 + o.More
		if o.Line == 0 || err.Line == 0 || o.kind != err.kind || o.Column != err.Column || o.File != err.File {
			continue
		}
		alike, last = alike+1, o
		if o.Found == err.Found && o.Right == err.Right {
			alike = maxAlike
			break
		}
	}
	switch {
	case rows >= maxRowsWrong, alike < maxAlike && len(*e) == maxErrors:
		*e = append(*e, Error{File: err.File, Line: err.Line, Found: moreErrors, Right: "to mend those above first: nothing was read beyond this"})
		return false
	case alike >= maxAlike:
		last.More++
	default:
		*e = append(*e, err)
	}
	return true
}

// noDigit leaves the figures of the row out of what would be right.
func noDigit(r rune) rune {
	if r >= '0' && r <= '9' || r == '.' || r == '-' {
		return -1
	}
	return r
}

// sort puts the errors in the order of their rows. Files stay in the order in which
// they were read.
func (e Errors) sort() {
	files := map[string]int{}
	for i := range e {
		if _, known := files[e[i].File]; !known {
			files[e[i].File] = i
		}
	}
	slices.SortStableFunc(e, func(a, b Error) int {
		if c := cmp.Compare(files[a.File], files[b.File]); c != 0 || a.Line == 0 || b.Line == 0 {
			return c
		}
		return cmp.Compare(a.Line, b.Line)
	})
}

// shown returns a cell as it is told of: quoted, and not at any length.
func shown(cell []byte) string {
	const most = 60
	if len(cell) == 0 {
		return "nothing"
	}
	if len(cell) > most {
		return fmt.Sprintf("%q...", cell[:most])
	}
	return fmt.Sprintf("%q", cell)
}
