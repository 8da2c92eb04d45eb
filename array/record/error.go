package record

import (
	"fmt"
	"strings"
)

// Error is one thing that is wrong with a record.
type Error struct {
	File   string // of an archive: archive/member
	Line   int    // from 1; 0 where the file as a whole is meant
	Column string // its heading; empty where no column can be named
	Found  string
	Right  string // what would be right
}

// Error returns one line: file:line: column: found X; right would be Y.
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
	return b.String()
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

// maxErrors bounds the list: a reader of more would mend none. Reading ends
// there.
const maxErrors = 200

// add takes an error and says whether reading may go on.
func (e *Errors) add(err Error) bool {
	if len(*e) > maxErrors {
		return false
	}
	if len(*e) == maxErrors {
		err.Column = ""
		err.Found, err.Right = fmt.Sprintf("more than %d errors", maxErrors), "to mend those above first: nothing was read beyond this"
	}
	*e = append(*e, err)
	return len(*e) <= maxErrors
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
