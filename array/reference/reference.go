// Package reference has the keys of the site file, and of a state file, as a text for
// people: what each takes, what holds where it is left out, and what it is. It is made of
// the readers' own tables of keys.
package reference

import (
	"fmt"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/state"
	"arrayodds/array/toml"
	"arrayodds/array/unit"

	"github.com/jedib0t/go-pretty/v6/text"
)

// Widths of the text, in characters.
const (
	width    = 88
	keyWidth = 22
)

// unbroken stands for a blank at which no line is broken.
const unbroken = "~"

const siteHead = `THE SITE FILE

One TOML file, of at most 4 MiB. Values with a unit are texts in quotes, such as
"12 TB"; a number without its unit is an error, and so is a key that is not listed
here. In place of any number or time there may stand a range,
{ low = "0.8 %", likely = "1.5 %", high = "3 %" }, of which the likely value counts.

`

const stateHead = `THE STATE FILE

What arrayodds now reads beside the site file: one array as it stands. TOML of at most
4 MiB; values with a unit are texts in quotes, such as "14 h". arrayodds now --example
prints one with a comment on every line.

`

// Site returns the keys of the site file as plain text.
func Site() string {
	r := reference{keys: site.Keys()}
	r.WriteString(siteHead)
	r.tables()
	r.WriteString("\nA time is a fixed length, or a law in one of these forms; open hours, the last, make\nsense for response and restock only.\n")
	r.forms(*site.Lookup("care.response"), 0)
	return r.String()
}

// State returns the keys of a state file as plain text.
func State() string {
	r := reference{keys: state.Keys()}
	r.WriteString(stateHead)
	r.tables()
	return r.String()
}

// tables writes the keys at the top, and then the tables.
func (r *reference) tables() {
	r.table("", 0)
	for _, k := range r.keysIn("") {
		if k.Kind != toml.Tables && k.Kind != toml.SubTable {
			continue
		}
		r.WriteByte('\n')
		r.key(k, 0)
		r.table(k.Path, 0)
	}
}

// SiteKey returns what [Site] says of one key and of those beneath it, or of all keys of that
// name. written is a path, such as "care.response", or the name alone; it is "" where
// there is no such key.
func SiteKey(written string) string {
	r := reference{keys: site.Keys()}
	for _, k := range r.keys {
		if k.Path != written && (k.Name() != written || k.Inherits != "" || strings.Contains(written, ".")) {
			continue
		}
		if r.Len() > 0 {
			r.WriteByte('\n')
		}
		r.alone(k)
	}
	return r.String()
}

// alone writes a key by its whole path, and what is beneath it.
func (r *reference) alone(k toml.Key) {
	indent := 0 // of what is beneath it
	if k.Inherits != "" {
		r.WriteString(k.Path + ", of one choice, in place of the site's:\n")
		k = *site.Lookup(k.Inherits)
	}
	if strings.Contains(k.Path, ".") {
		r.WriteString(k.Path + "\n")
		indent = 2
	}
	r.key(k, 0)
	switch {
	case len(k.Forms) > 0:
		r.forms(k, indent)
	case k.Kind == toml.SubTable || k.Kind == toml.Tables:
		r.table(k.Path, indent)
	}
}

// reference is the text while it is written.
type reference struct {
	strings.Builder
	keys []toml.Key // of the file
}

// keysIn returns the keys of a table.
func (r *reference) keysIn(table string) (all []toml.Key) {
	for _, k := range r.keys {
		if strings.TrimSuffix(strings.TrimSuffix(k.Path, k.Name()), ".") == table {
			all = append(all, k)
		}
	}
	return all
}

// table writes the keys of a table. Tables at the top have parts of their own.
func (r *reference) table(path string, indent int) {
	for _, k := range r.keysIn(path) {
		if path == "" && (k.Kind == toml.Tables || k.Kind == toml.SubTable) {
			continue
		}
		r.key(k, indent)
		switch {
		case k.Inherits != "", k.Kind == toml.Time: // stand elsewhere
		case len(k.Forms) > 0:
			r.forms(k, indent+2)
		case k.Kind == toml.SubTable:
			r.table(k.Path, indent+2)
		}
	}
}

// forms writes the forms of a table with their keys.
func (r *reference) forms(of toml.Key, indent int) {
	for _, f := range of.Forms {
		r.WriteString(strings.Repeat(" ", indent) + f.Example + "\n")
		for _, k := range r.keysIn(of.Path) {
			if slices.Contains(f.Keys, k.Name()) {
				r.key(k, indent+2)
				r.table(k.Path, indent+4)
			}
		}
	}
}

// key writes one key: its name and, beside it, all that is to be said of it.
func (r *reference) key(k toml.Key, indent int) {
	name := inFile(k)
	header := k.Kind == toml.SubTable && (k.Path == k.Name() || k.Inherits != "")
	switch {
	case header:
		name = "[" + k.Path + "]"
	case k.Kind == toml.Tables:
		name = "[[" + k.Path + "]]"
	}
	said := site.Takes(k)
	switch {
	case k.Inherits != "":
		said = "Has the keys of [" + k.Inherits + "]"
	case header:
		said = "May be left out"
	}
	if s := without(k); s != "" {
		said += "; " + s
	}
	said = k.Doc + " " + strings.ToUpper(said[:1]) + said[1:] + "."
	for _, bound := range strings.Split(k.Limits(), " to ") { // stay in one line
		said = strings.ReplaceAll(said, bound, strings.ReplaceAll(bound, " ", unbroken))
	}
	said = strings.ReplaceAll(text.WrapSoft(said, width-keyWidth), unbroken, " ")
	lines := strings.Split(said, "\n")
	for i, line := range lines {
		if i > 0 {
			name, indent = "", 0
		}
		r.WriteString(strings.TrimRight(fmt.Sprintf("%-*s %s", keyWidth-1, strings.Repeat(" ", indent)+name, line), " ") + "\n")
	}
}

// inFile returns a key as a file has it, in quotes where it has blanks.
func inFile(k toml.Key) string {
	if strings.Contains(k.Name(), " ") {
		return strconv.Quote(k.Name())
	}
	return k.Name()
}

// without returns what holds where a key is left out.
func without(k toml.Key) string {
	var all []string
	switch absent := strings.TrimPrefix(strings.TrimPrefix(k.Absent, "not given"), ": "); {
	case k.Required && k.Missing != "":
		all = append(all, "required, or "+k.Missing)
	case k.Required && len(k.Instead) > 0:
		all = append(all, "required, or "+strings.Join(k.Instead, " and "))
	case k.Required:
		all = append(all, "required")
	case k.Default != "":
		all = append(all, "default "+grouped(k))
	case absent != "":
		all = append(all, "else "+absent)
	}
	if len(k.Unless) > 0 {
		all = append(all, "only without "+strings.Join(k.Unless, ", "))
	}
	if len(k.Excludes) > 0 {
		all = append(all, "not beside "+strings.Join(k.Excludes, " or "))
	}
	return strings.Join(all, "; ")
}

// grouped returns the default of a key with the digits of a large number in groups.
func grouped(k toml.Key) string {
	if v, err := strconv.ParseFloat(k.Default, 64); err == nil && k.Kind == toml.Whole {
		return unit.Digits(v, 15)
	}
	return k.Default
}
