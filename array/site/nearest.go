package site

import (
	"strings"
	"unicode"
)

// nearest is the candidate that was probably meant, or "": at most a third of
// its letters differ, case, blanks and hyphens aside.
func nearest(written string, candidates []string) string {
	if len(written) > 2*maxLabel {
		return ""
	}
	best, least := "", 1<<30
	w := bareLetters(written)
	for _, c := range candidates {
		b := bareLetters(c)
		d := distance(w, b)
		if d < least && 3*d <= max(len(b), 3) {
			best, least = c, d
		}
	}
	return best
}

// bareLetters is a name without case, blanks, hyphens and underscores.
func bareLetters(s string) []rune {
	return []rune(strings.Map(func(r rune) rune {
		if r == '-' || r == '_' || unicode.IsSpace(r) {
			return -1
		}
		return unicode.ToLower(r)
	}, s))
}

// distance is the least number of letters to put in, take out, exchange or
// swap with their neighbour (optimal string alignment).
func distance(a, b []rune) int {
	before, row := make([]int, len(b)+1), make([]int, len(b)+1)
	var above []int // the row before the one before
	for j := range row {
		before[j] = j
	}
	for i := 1; i <= len(a); i++ {
		row[0] = i
		for j := 1; j <= len(b); j++ {
			cost := 1
			if a[i-1] == b[j-1] {
				cost = 0
			}
			row[j] = min(before[j]+1, row[j-1]+1, before[j-1]+cost)
			if i > 1 && j > 1 && a[i-1] == b[j-2] && a[i-2] == b[j-1] {
				row[j] = min(row[j], above[j-2]+1)
			}
		}
		above, before, row = before, row, make([]int, len(b)+1)
	}
	return before[len(b)]
}

// unprintable is a character that has no place in a name.
func unprintable(r rune) bool {
	return !unicode.IsPrint(r) && r != '\u00a0' && r != '\u202f'
}
