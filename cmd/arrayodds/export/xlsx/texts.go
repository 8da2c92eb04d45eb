package xlsx

import (
	"encoding/xml"
	"fmt"
	"strings"
	"unicode/utf16"

	"arrayodds/array/pattern"
)

// texts are the texts of all cells so far, each once.
type texts struct {
	places map[string]int
	items  strings.Builder
	cells  int // that have one
}

// maxText is what a cell holds, in units of UTF-16: programs stop there. What is longer
// is cut.
const maxText = 32_767

// of returns the place of a text among all.
func (t *texts) of(s string) int {
	t.cells++
	if i, ok := t.places[s]; ok {
		return i
	}
	if t.places == nil {
		t.places = map[string]int{}
	}
	i := len(t.places)
	t.places[s] = i
	t.items.WriteString(`<si><t`)
	if strings.TrimSpace(s) != s {
		t.items.WriteString(` xml:space="preserve"`)
	}
	t.items.WriteString(`>` + escaped(cut(s)) + `</t></si>`)
	return i
}

func (t *texts) xml() string {
	return fmt.Sprintf(`<sst xmlns="%s" count="%d" uniqueCount="%d">%s</sst>`, spreadsheet, t.cells, len(t.places), t.items.String())
}

// cut returns what a cell holds of a text.
func cut(s string) string {
	if len(s) <= maxText {
		return s
	}
	units := 0
	for i, r := range s {
		if units += utf16.RuneLen(r); units > maxText {
			return s[:i]
		}
	}
	return s
}

// like is what looks as a character does that XML cannot hold.
var like = pattern.Of(`^_x[0-9A-Fa-f]{4}_`)

// escaped returns a text for XML. A character that it cannot hold is written as _x, four
// hexadecimal digits and _, and so is an underscore that begins what looks like it:
// ECMA-376 part 1, 22.9.2.19.
func escaped(s string) string {
	var b strings.Builder
	for i, r := range s {
		if r < ' ' && r != '\n' && r != '\t' || r == 0xFFFE || r == 0xFFFF || r == '_' && like().MatchString(s[i:]) {
			fmt.Fprintf(&b, "_x%04X_", r)
		} else {
			b.WriteRune(r)
		}
	}
	var out strings.Builder
	if err := xml.EscapeText(&out, []byte(b.String())); err != nil {
		panic(err) // which a builder never gives
	}
	return out.String()
}
