package form

import (
	"strings"
	"unicode"
	"unicode/utf8"
)

// words are the parts of keys that are not written in small letters as they stand.
var words = map[string]string{"afr": "AFR", "mtbf": "MTBF", "ups": "UPS", "bitrate": "bit rate"}

// labelOf returns the name of a key as the label of its field: "Hours per day".
func labelOf(name string) string {
	parts := strings.Split(name, "_")
	for i, p := range parts {
		if w := words[p]; w != "" {
			parts[i] = w
		}
	}
	return capital(strings.Join(parts, " "))
}

// capital returns a text with its first letter a capital.
func capital(s string) string {
	r, n := utf8.DecodeRuneInString(s)
	if n == 0 {
		return s
	}
	return string(unicode.ToUpper(r)) + s[n:]
}
