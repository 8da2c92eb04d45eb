package form

import "strings"

func index(of string) int { return strings.Index(before, of) }

func replaceFirst(s, from, to string) string { return strings.Replace(s, from, to, 1) }

func replaceAll(s, from, to string) string { return strings.ReplaceAll(s, from, to) }

// diff is the lines of one text where it is not as another, without those that both
// begin and end with.
func diff(got, was string) string {
	a, b := strings.SplitAfter(got, "\n"), strings.SplitAfter(was, "\n")
	for len(a) > 0 && len(b) > 0 && a[0] == b[0] {
		a, b = a[1:], b[1:]
	}
	for len(a) > 0 && len(b) > 0 && a[len(a)-1] == b[len(b)-1] {
		a, b = a[:len(a)-1], b[:len(b)-1]
	}
	return strings.ReplaceAll(strings.Join(a, ""), "\r", "␍")
}
