package toml

import (
	"strings"

	"arrayodds/array/nearest"
)

// Form returns the form that a table is written in, by its place among the Forms
// of its key; −1 where it is written in none, which is reported. Keys of another
// form beside it are reported too.
func (t *Table) Form(of *Key) int {
	form, found := -1, ""
	for i, f := range of.Forms {
		mine := false
		for _, key := range f.Keys {
			if !t.Given(key) {
				continue
			}
			switch {
			case found == "":
				form, found, mine = i, key, true
			case !mine:
				t.Wrong(key, "it beside "+found, "one of the two", "")
				t.Know(key)
			}
		}
	}
	if found == "" && !t.Cut {
		var all []string
		for _, f := range of.Forms {
			all = append(all, f.Keys...)
		}
		for _, key := range t.Node.Keys { // misspelt: Done says what was meant
			if nearest.Name(key, all) != "" {
				t.KnowOnly(all...)
				return -1
			}
		}
		t.Fail(t.Node.Line, t.Path, "a table without "+strings.Join(all, ", "), of.Expected(), "")
		t.Know(append(all, t.Node.Keys...)...)
	}
	return form
}
