package unit

import (
	"strings"

	"arrayodds/array/pattern"
)

const readErrorRight = `"1 in 1e15 bits", the bits read per error as a datasheet gives them`

var (
	oneIn      = pattern.Of(`^(?i)1 (?:in|per) (.+)$`)
	powerOfTen = pattern.Of(`^10\^(\d{1,3})(\D.*)?$`)
)

// BitsPerError reads an unreadable-sector rate as a datasheet gives it:
// "1 in 1e15 bits" or "1 in 10^15 bits". The result is the number of bits read
// per error, above 0.
func BitsPerError(text string) (float64, error) {
	wrong := func(why, mean string) (float64, error) {
		return 0, &Error{Found: because(text, why), Right: readErrorRight, Mean: mean}
	}
	m := oneIn().FindStringSubmatch(squeeze(text))
	if m == nil {
		return wrong(`which does not begin with "1 in"`, "")
	}
	count := m[1]
	if p := powerOfTen().FindStringSubmatch(count); p != nil {
		count = "1e" + p[1] + p[2]
	}
	value, written, err := split(count, "1 in 1e15 bits")
	if err != nil {
		_, why, _ := strings.Cut(err.(*Error).Found, ", ")
		return wrong(why, "")
	}
	switch strings.ToLower(written) {
	case "bit", "bits", "bits read":
	case "":
		return wrong("without bits", "1 in "+shortest(value)+" bits")
	case "byte", "bytes", "b":
		return wrong("which counts bytes", "1 in "+shortest(value*8)+" bits")
	default:
		return wrong("with the unit "+Quote(written), "")
	}
	if value == 0 {
		return wrong("which is an error per 0 bits", "")
	}
	return value, nil
}
