package label

import (
	"strings"
	"unicode"
)

// OneLine makes a label of the site file safe to set in a line: breaks become
// spaces, and the marks that turn the direction of what follows are left out.
func OneLine(label string) string {
	clean := strings.Map(func(r rune) rune {
		switch {
		case r == '\u2028' || r == '\u2029' || unicode.IsControl(r):
			return ' '
		case r >= '\u202a' && r <= '\u202e' || r >= '\u2066' && r <= '\u2069':
			return -1
		}
		return r
	}, label)
	return strings.Join(strings.Fields(clean), " ")
}

// Short cuts a label to what a chart has room for. The whole of it stands in
// the tables.
func Short(label string) string { return Cut(label, 64) }

// Cut cuts a label to so many letters.
func Cut(label string, room int) string {
	runes := []rune(OneLine(label))
	if len(runes) <= room {
		return string(runes)
	}
	return strings.TrimRight(string(runes[:room-1]), " ") + "…"
}
