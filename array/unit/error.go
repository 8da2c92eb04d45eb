package unit

import (
	"fmt"
	"strconv"
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
	// Joiners stand as they are: escaped, they would break words and emoji.
	var quoted strings.Builder
	quoted.WriteByte('"')
	for text != "" {
		n := strings.IndexFunc(text, IsJoiner)
		if n < 0 {
			n = len(text)
		}
		q := strconv.Quote(text[:n])
		quoted.WriteString(q[1 : len(q)-1])
		_, size := utf8.DecodeRuneInString(text[n:])
		quoted.WriteString(text[n : n+size])
		text = text[n+size:]
	}
	return quoted.String() + `"`
}

// IsJoiner reports whether a character does nothing but join its neighbours or keep
// them apart, as in words of Persian and of India's scripts, and in emoji.
func IsJoiner(r rune) bool { return r == '\u200c' || r == '\u200d' }

// because returns what was found with the reason why it is wrong.
func because(text, why string) string { return Quote(text) + ", " + why }

// squeeze trims the ends and makes one plain blank of every run of blanks,
// the narrow and unbreakable ones included.
func squeeze(text string) string { return strings.Join(strings.Fields(narrow.Replace(text)), " ") }

var narrow = strings.NewReplacer("\u00a0", " ", "\u202f", " ", "\u2009", " ")
