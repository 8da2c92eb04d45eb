package workbook

import (
	"strconv"
	"strings"

	"arrayodds/array/pattern"
)

var escape = pattern.Of(`_x[0-9A-Fa-f]{4}_`)

// unescaped returns a text with the characters that XML cannot hold, which stand in it as
// _x and four hexadecimal digits and _, as does an underscore before such: ECMA-376
// part 1, 22.9.2.19.
func unescaped(s string) string {
	if !strings.Contains(s, "_x") {
		return s
	}
	return escape().ReplaceAllStringFunc(s, func(e string) string {
		code, err := strconv.ParseUint(e[2:6], 16, 16)
		if err != nil {
			return e
		}
		return string(rune(code))
	})
}
