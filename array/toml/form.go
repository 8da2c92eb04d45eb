package toml

import (
	"strings"

	"arrayodds/array/nearest"
)

// Form returns the first key of the form that a table is written in; forms are the
// keys of each. Keys of another form beside it are reported, and so is a table of no
// form, for which "" is returned.
func (t *Table) Form(forms [][]string, right string) string {
	found := ""
	for _, keys := range forms {
		mine := false
		for _, key := range keys {
			if !t.Given(key) {
				continue
			}
			switch {
			case found == "":
				found, mine = key, true
			case !mine:
				t.Wrong(key, "it beside "+found, "one of the two", "")
				t.Know(key)
			}
		}
	}
	if found == "" && !t.Cut {
		var all []string
		for _, keys := range forms {
			all = append(all, keys...)
		}
		for _, key := range t.Node.Keys { // misspelt: Done says what was meant
			if nearest.Name(key, all) != "" {
				t.KnowOnly(all...)
				return ""
			}
		}
		t.Fail(t.Node.Line, t.Path, "a table without "+strings.Join(all, ", "), right, "")
		t.Know(append(all, t.Node.Keys...)...)
	}
	return found
}
