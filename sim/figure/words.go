package figure

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"
	"unicode"
)

// Years returns a length of time given in years: "5 years", "1 year".
func Years(y float64) string { return Plural(Plain(y), "year", "years") }

// Days returns a time in hours as days, rounded down: to a hundredth below 10 days,
// else to a tenth.
func Days(hours float64) string {
	if math.IsNaN(hours) {
		return "not known"
	}
	d := hours / 24
	if d < 10 {
		return Plain(math.Floor(d*100+1e-9)/100) + " d"
	}
	// Rounded down: 29.96 days are not the 30 that were asked for.
	return Plain(math.Floor(d*10+1e-9)/10) + " d"
}

// Plain writes a number that has no interval and needs no more than four digits: "5",
// "1.5".
func Plain(x float64) string {
	if x == math.Trunc(x) {
		return Whole(x)
	}
	if math.Abs(x) < 1e-3 {
		return Power(x, exponent(x)-1)
	}
	return strconv.FormatFloat(x, 'g', 4, 64)
}

// Count returns a number of things: "1 drive", "8 drives".
func Count(n int, one, many string) string { return Plural(Whole(float64(n)), one, many) }

// Drives returns a number of drives with the groups that they are in, where those are
// several: "8 drives", "12 drives in 2 groups".
func Drives(n, groups int) string {
	text := Count(n, "drive", "drives")
	if groups > 1 {
		text += " in " + Count(groups, "group", "groups")
	}
	return text
}

// Plural returns a number, as it is written, with what it counts: "1 day", "2.5
// days".
func Plural(number, one, many string) string {
	if number == "1" {
		return number + " " + one
	}
	return number + " " + many
}

// List joins texts with commas and "and": "a, b and c".
func List(items []string) string {
	switch len(items) {
	case 0:
		return ""
	case 1:
		return items[0]
	}
	return strings.Join(items[:len(items)-1], ", ") + " and " + items[len(items)-1]
}

// Capital returns s with its first letter in upper case.
func Capital(s string) string {
	r := []rune(s)
	if len(r) == 0 {
		return s
	}
	return string(unicode.ToUpper(r[0])) + string(r[1:])
}

// MostNoted is how many texts [Some] names one by one.
const MostNoted = 6

// Some joins texts as [List] does; of many the first ones, and how many more there are.
func Some(texts []string) string {
	if n := len(texts) - MostNoted; n > 0 {
		texts = append(slices.Clone(texts[:MostNoted]), fmt.Sprintf("%d more", n))
	}
	return List(texts)
}
