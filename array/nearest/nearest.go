// Package nearest finds the name that was probably meant by one that is not
// known, for the "did you mean" of an error.
package nearest

import (
	"strings"
	"unicode"

	"github.com/xrash/smetrics"
)

// maxWritten is how long a word is, in bytes, that is still compared.
const maxWritten = 400

// Name returns the candidate that was probably meant by what is written, or ""
// where none is near: at most a third of its letters have to be put in, taken out
// or exchanged (Levenshtein distance), case, blanks, hyphens and underscores aside.
// Two neighbours that changed places count as one letter. Of candidates equally
// near the first is returned.
func Name(written string, candidates []string) string {
	if len(written) > maxWritten {
		return ""
	}
	best, least := "", maxWritten
	w := letters(written)
	for _, c := range candidates {
		l := letters(c)
		if d := distance(w, l); d < least && 3*d <= max(len(l), 3) {
			best, least = c, d
		}
	}
	return best
}

// DidYouMean returns a hint at the nearest of the candidates, " (did you mean x?)" with a
// prefix before it, or "" where none is near.
func DidYouMean(written string, candidates []string, prefix string) string {
	if mean := Name(written, candidates); mean != "" {
		return " (did you mean " + prefix + mean + "?)"
	}
	return ""
}

// letters returns a name without what people leave out or write differently.
func letters(s string) string {
	return strings.Map(func(r rune) rune {
		if r == '-' || r == '_' || unicode.IsSpace(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, s)
}

func distance(a, b string) int {
	if swapped(a, b) {
		return 1
	}
	return smetrics.WagnerFischer(a, b, 1, 1, 1)
}

// swapped reports whether a is b with two neighbouring letters the other way
// round.
func swapped(a, b string) bool {
	if len(a) != len(b) {
		return false
	}
	i := 0
	for i < len(a) && a[i] == b[i] {
		i++
	}
	return i+1 < len(a) && a[i] == b[i+1] && a[i+1] == b[i] && a[i+2:] == b[i+2:]
}
