package unit

import (
	"math"
	"strconv"
	"strings"

	"arrayodds/array/pattern"
)

// A number is plain decimal, perhaps with an exponent, perhaps with blanks or
// underscores between groups of three.
var (
	numberForm  = pattern.Of(`^\+?(\d{1,3}(?: \d{3})+|\d{1,3}(?:_\d{3})+|\d+)(\.\d+)?([eE][+-]?\d+)?`)
	strayNumber = pattern.Of(`^[+-]?(?i:nan|inf(?:inity)?\b|0x|\.\d|\d)`)
)

// split takes the number off the front of text. Its error speaks of the number
// only; example is a whole quantity that is right.
func split(text, example string) (value float64, rest string, err error) {
	if v, rest, ok := splitPlain(text); ok {
		return v, rest, nil
	}
	return splitAny(text, example)
}

// splitAny is split of whatever text.
func splitAny(text, example string) (value float64, rest string, err error) {
	s := squeeze(text)
	wrong := func(why string) (float64, string, error) {
		return 0, "", &Error{Found: because(text, why), Right: "a quantity such as " + strconv.Quote(example)}
	}
	if s == "" {
		return 0, "", &Error{Found: "nothing", Right: "a quantity such as " + strconv.Quote(example)}
	}
	form := numberForm().FindString(s)
	lower := strings.ToLower(s)
	switch {
	case strings.HasPrefix(s, "-") || strings.HasPrefix(s, "−"):
		return wrong("which is below zero")
	case strings.HasPrefix(lower, "nan"), strings.HasPrefix(lower, "inf"), strings.HasPrefix(lower, "+inf"):
		return wrong("which is not a finite number")
	case strings.HasPrefix(lower, "0x"):
		return wrong("which is hexadecimal")
	case form == "":
		return wrong("which does not begin with a number")
	}
	rest = s[len(form):]
	if strings.HasPrefix(rest, ",") {
		return wrong("with a comma (decimals take a point, thousands a blank)")
	}
	if strings.HasPrefix(rest, ".") || strings.HasPrefix(rest, "_") || strayNumber().MatchString(strings.TrimSpace(rest)) {
		return wrong("whose number cannot be read")
	}
	v, err := strconv.ParseFloat(ungrouped.Replace(plainExponent.Replace(form)), 64)
	if err != nil || math.IsInf(v, 0) {
		return wrong("which is too large a number")
	}
	if v == 0 && strings.ContainsAny(strings.FieldsFunc(form, isExponent)[0], "123456789") {
		return wrong("which is too small a number")
	}
	return v, strings.TrimSpace(rest), nil
}

// splitPlain is split of what most quantities look like: digits, perhaps with a point
// among them, then a blank or nothing, then a unit. It reports whether the text is such,
// and takes a fraction of the time.
func splitPlain(text string) (value float64, rest string, ok bool) {
	digits := func(at int) int {
		for at < len(text) && text[at] >= '0' && text[at] <= '9' {
			at++
		}
		return at
	}
	end := digits(0)
	if end == 0 {
		return 0, "", false
	}
	if end < len(text) && text[end] == '.' {
		whole := end
		if end = digits(whole + 1); end == whole+1 {
			return 0, "", false
		}
	}
	rest = strings.TrimPrefix(text[end:], " ")
	for i, c := range []byte(rest) {
		unit := c >= 'A' && c <= 'Z' || c >= 'a' && c <= 'z' || c == '%' || c == '/'
		if !unit || i == 0 && strings.IndexByte("eEiInNxX", c) >= 0 { // as of 1e6, infinity and 0x10
			return 0, "", false
		}
	}
	value, err := strconv.ParseFloat(text[:end], 64)
	return value, rest, err == nil && (value > 0 || strings.Trim(text[:end], "0.") == "")
}

func isExponent(r rune) bool { return r == 'e' || r == 'E' }

// plainExponent keeps the sign rules of strconv: only the mantissa may lose its
// plus. ungrouped then takes out what parts the thousands.
var (
	plainExponent = strings.NewReplacer("e+", "e", "E+", "E")
	ungrouped     = strings.NewReplacer(" ", "", "_", "", "+", "")
)

// Of returns the unit of a quantity as it is written behind its number: "h" of "24 h".
// It is empty where there is none, and where text does not begin with a number.
func Of(text string) string {
	_, rest, err := split(text, "")
	if err != nil {
		return ""
	}
	return rest
}
