package toml

import (
	"fmt"
	"slices"
	"strings"
	"unicode"

	"arrayodds/array/nearest"
	"arrayodds/array/unit"
)

// MaxText bounds texts that people will see, in characters.
const MaxText = 200

// Unprintable reports whether a character has no place in a text that people will
// see.
func Unprintable(r rune) bool {
	return !unicode.IsPrint(r) && r != '\u00a0' && r != '\u202f' && !unit.IsJoiner(r)
}

// Line reads a text that people will see: of one line, and of at most [MaxText]
// characters. It reports whether it is one.
func (t *Table) Line(key string, n *Node) (string, bool) {
	if n.Kind != StringNode {
		t.WrongAt(n, key, n.Shown(), `a text in quotes`, "")
		return "", false
	}
	s := strings.TrimSpace(n.Text)
	switch {
	case strings.TrimFunc(s, unit.IsJoiner) == "":
		t.WrongAt(n, key, `""`, "a text", "")
	case len([]rune(s)) > MaxText:
		t.WrongAt(n, key, fmt.Sprintf("%s, of %d characters", unit.Quote(s), len([]rune(s))), fmt.Sprintf("at most %d characters", MaxText), "")
	case strings.ContainsFunc(s, Unprintable):
		t.WrongAt(n, key, unit.Quote(s), "a text without control characters", "")
	default:
		return s, true
	}
	return "", false
}

// Text reads a text of one line and reports whether dst was set.
func (t *Table) Text(key string, dst *string) bool {
	n := t.Ask(key)
	if n == nil {
		return false
	}
	s, ok := t.Line(key, n)
	if ok {
		*dst = s
		t.NoteValue(key, s)
	}
	return ok
}

// Label reads the label of a table and makes it part of the path, so that errors
// and notes speak of the thing by its name. Where dst has a name already, that is
// its name if it has no label.
func (t *Table) Label(number int, dst *string) {
	t.Path = fmt.Sprintf("%s %d", t.Kind, number)
	if *dst != "" {
		t.Path = Join(t.Kind, *dst)
	}
	n := t.ask(t.Key("label"), *dst)
	if n == nil {
		return
	}
	name, ok := t.Line("label", n)
	if !ok {
		return
	}
	*dst = name
	t.Path = Join(t.Kind, name)
	t.NoteValue("label", name)
}

// Word reads one of the words of a key, in lower case, and reports whether there is
// one.
func (t *Table) Word(key string) (string, bool) {
	n := t.Ask(key)
	if n == nil {
		return "", false
	}
	k := t.Key(key)
	word := strings.ToLower(strings.TrimSpace(n.Text))
	if n.Kind != StringNode || !slices.Contains(k.Words, word) {
		t.WrongAt(n, key, n.Shown(), k.Expected(), nearest.Name(word, k.Words))
		return "", false
	}
	t.NoteValue(key, word)
	return word, true
}

// QuotedList returns texts in quotes with commas between.
func QuotedList(all []string) string {
	quoted := make([]string, len(all))
	for i, s := range all {
		quoted[i] = unit.Quote(s)
	}
	return strings.Join(quoted, ", ")
}
