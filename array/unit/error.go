package unit

import (
	"fmt"
	"strings"
	"unicode/utf8"
)

// An Error is a quantity that could not be read.
type Error struct {
	Found string // what was written, quoted; why it is wrong, where that is not plain
	Right string // what would be right
	Mean  string // a spelling that was perhaps meant; empty where none is near
}

// Error returns the sentence that a user reads.
func (e *Error) Error() string {
	s := fmt.Sprintf("found %s; right would be %s", e.Found, e.Right)
	if e.Mean != "" {
		s += fmt.Sprintf(" (did you mean %q?)", e.Mean)
	}
	return s
}

// maxShown is how much of what was found an error repeats, in runes.
const maxShown = 60

// Quote returns text in quotes, with control characters escaped, and cut where it
// is too long for a message.
func Quote(text string) string {
	if utf8.RuneCountInString(text) > maxShown {
		text = string([]rune(text)[:maxShown]) + "…"
	}
	return fmt.Sprintf("%q", text)
}

// because returns what was found with the reason why it is wrong.
func because(text, why string) string { return Quote(text) + ", " + why }

// squeeze trims the ends and makes one plain blank of every run of blanks,
// the narrow and unbreakable ones included.
func squeeze(text string) string { return strings.Join(strings.Fields(narrow.Replace(text)), " ") }

var narrow = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ")
