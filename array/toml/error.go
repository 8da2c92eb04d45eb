package toml

import (
	"fmt"
	"sort"
	"strings"
)

// Error is one thing that is wrong with a file.
type Error struct {
	File string
	Line int // from 1; 0 where the place is a setting
	// Place is the place in a schedule that the line names, such as
	// `schedule.xlsx, sheet "Cameras", cell C7`, or a setting as it is typed, such as
	// `care.response = 4 h`; empty: it is the line itself.
	Place string
	Key   string // such as "drives.12 TB.capacity"; empty where no key can be named
	Found string
	Right string // what would be right
	Mean  string // what was perhaps meant; empty where nothing is near
}

// Error returns one line: place, or file:line: key: found X; right would be Y (did you mean "Z"?).
func (e Error) Error() string {
	var b strings.Builder
	if e.Place != "" {
		b.WriteString(e.Place + ": ")
	} else {
		fmt.Fprintf(&b, "%s:%d: ", e.File, e.Line)
	}
	if e.Key != "" {
		b.WriteString(e.Key + ": ")
	}
	b.WriteString(e.Said())
	return b.String()
}

// Said returns the error without its place and key, for where those are seen anyway.
func (e Error) Said() string {
	said := fmt.Sprintf("found %s; right would be %s", e.Found, e.Right)
	if e.Mean != "" {
		said += fmt.Sprintf(" (did you mean %q?)", e.Mean)
	}
	return said
}

// Errors is everything that is wrong with a file, in the order of its lines.
type Errors []Error

// Error returns one line for each error.
func (e Errors) Error() string {
	lines := make([]string, len(e))
	for i := range e {
		lines[i] = e[i].Error()
	}
	return strings.Join(lines, "\n")
}

// ByLine sorts the errors by their lines.
func (e Errors) ByLine() Errors {
	sort.SliceStable(e, func(i, j int) bool { return e[i].Line < e[j].Line })
	return e
}

// maxErrors bounds the list: a reader of more would mend none.
const maxErrors = 200

// Sorted returns the errors in the order of their lines, cut at 200; the last one
// then says how many more there are.
func (e Errors) Sorted() Errors {
	e = e.ByLine()
	if len(e) <= maxErrors {
		return e
	}
	next := e[maxErrors]
	rest := len(e) - maxErrors
	return append(e[:maxErrors:maxErrors], Error{
		File: next.File, Line: next.Line,
		Found: fmt.Sprintf("%d errors more from here on", rest),
		Right: "to mend those above first",
	})
}

var unquoted = strings.NewReplacer(" in quotes", "", ", without quotes", "")

// Unquoted takes out of an error's Right what is said of texts in TOML, for values
// that stand elsewhere.
func Unquoted(right string) string { return unquoted.Replace(right) }
