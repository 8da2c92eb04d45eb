package print

import (
	"fmt"
	"strings"
)

// narrowColumns is what the tables of one question are laid out for: half a screen, or a
// class's.
const narrowColumns = 60

// narrow returns a paragraph that is so narrow.
func narrow(format string, a ...any) string { return paragraphIn(narrowColumns, format, a...) }

// rewrapped makes a paragraph so narrow.
func rewrapped(paragraph string) string {
	return narrow("%s", strings.ReplaceAll(strings.TrimSuffix(paragraph, "\n"), "\n  ", " "))
}

// headed is rows of a table below a line of their own.
type headed struct {
	head string
	rows [][]string
}

// layOutHeaded returns a table as [layOut] does, its rows in parts, each below its head,
// which may be as wide as the table.
func layOutHeaded(columns []column, parts []headed) string {
	const mark = "\ue001" // stands in the first column for a head
	var rows [][]string
	for i, p := range parts {
		row := make([]string, len(columns))
		row[0] = fmt.Sprint(mark, i)
		rows = append(append(rows, row), p.rows...)
	}
	lines := strings.Split(layOut(columns, rows), "\n")
	for i, l := range lines {
		at := 0
		if _, err := fmt.Sscanf(strings.TrimSpace(l), mark+"%d", &at); err == nil && strings.Contains(l, mark) {
			lines[i] = strings.TrimSuffix(narrow("%s", parts[at].head), "\n")
		}
	}
	return shortRule(strings.Join(lines, "\n"))
}

// shortRule ends the rule below the headings where the last column ends.
func shortRule(table string) string {
	lines := strings.Split(table, "\n")
	for i, l := range lines {
		if len(l) > 2 && strings.Trim(l, "-") == "" {
			lines[i] = l[2:]
		}
	}
	return strings.Join(lines, "\n")
}

// kept returns a path that no line breaks within.
func kept(path string) string { return strings.ReplaceAll(plain(path), " ", "\u00a0") }

// or returns the first text that is not empty.
func or(text, otherwise string) string {
	if text != "" {
		return text
	}
	return otherwise
}
