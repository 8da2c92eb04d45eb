package charts

import (
	"math"
	"strconv"
	"strings"
	"unicode"

	"arrayodds/charts/figure"
)

// oneLine makes a label of the site file safe to set in a line: breaks become
// spaces, and the marks that turn the direction of what follows are left out.
func oneLine(label string) string {
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

// short cuts a label to what a chart has room for. The whole of it stands in
// the tables.
func short(label string) string { return cutTo(label, 64) }

// cutTo cuts a label to so many letters.
func cutTo(label string, room int) string {
	runes := []rune(oneLine(label))
	if len(runes) <= room {
		return string(runes)
	}
	return strings.TrimRight(string(runes[:room-1]), " ") + "…"
}

// years writes a length of time given in years: "5 years", "1 year".
func years(y float64) string {
	if y == 1 {
		return "1 year"
	}
	return plainNumber(y) + " years"
}

// days writes a number of hours as days, with one decimal where it has one.
func days(hours float64) string {
	if math.IsNaN(hours) {
		return "not known"
	}
	d := hours / 24
	if d < 10 {
		return plainNumber(math.Floor(d*100+1e-9)/100) + " d"
	}
	// Rounded down: 29.96 days are not the 30 that were asked for.
	return plainNumber(math.Floor(d*10+1e-9)/10) + " d"
}

func plainNumber(x float64) string {
	if x == math.Trunc(x) {
		return figure.Whole(x)
	}
	return strconv.FormatFloat(x, 'g', 4, 64)
}

// count writes n things: "1 drive", "8 drives".
func count(n int, one, many string) string {
	if n == 1 {
		return "1 " + one
	}
	return figure.Whole(float64(n)) + " " + many
}

// list joins with commas and "and".
func list(items []string) string {
	switch len(items) {
	case 0:
		return ""
	case 1:
		return items[0]
	}
	return strings.Join(items[:len(items)-1], ", ") + " and " + items[len(items)-1]
}

// capital writes the first letter large.
func capital(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return string(unicode.ToUpper(r[0])) + string(r[1:])
}
