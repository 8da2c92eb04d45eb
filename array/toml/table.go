package toml

import (
	"fmt"
	"slices"
	"strings"

	"arrayodds/array/nearest"
)

// Table is a table of the file while it is read. The methods that read a key make
// it known: what is in the file and was never asked for is reported by Done. What a
// key takes is in the schema: to ask for one that is not there panics.
type Table struct {
	*Reader
	Node *Node
	Path string // for people, with labels: "drives.12 TB"
	Kind string // without labels: "drives"
	// Keep says that a key which is not there leaves its target as it is, since the
	// table overrides another one.
	Keep bool
	// Quiet says that the values are noted together by whoever reads the table.
	Quiet bool

	known   []string
	missing []*Key // keys required and not there
}

// Key returns what the schema says of a key of the table.
func (t *Table) Key(name string) *Key { return t.Schema.Key(t.Kind, name) }

// Ask finds the value of a key, or its default; nil where there is nothing to read.
func (t *Table) Ask(name string) *Node {
	k := t.Key(name)
	if k.Kind == Tables { // noted by Children, which counts them
		return t.ask(k, "")
	}
	return t.ask(k, k.absence())
}

// absence returns how it is noted that a key is not there; "" for not at all.
func (k *Key) absence() string {
	if k.Default != "" {
		return k.Default
	}
	return k.Absent
}

// ask is Ask with the note where the key is not there.
func (t *Table) ask(k *Key, absence string) *Node {
	name := k.Name()
	t.Know(name)
	if t.Asked != nil {
		t.Asked[k.Path] = true
	}
	if n := t.Node.Under[name]; n != nil {
		if n.Range != nil && !t.Again { // several read again at a time
			n.Range.asked = true
		}
		if n.Kind == BrokenNode {
			return nil
		}
		return n
	}
	if t.Keep {
		return nil
	}
	if k.Required && k.Kind != Tables { // for which AtLeastOne is
		if !t.given(k.Instead) && !t.given(k.Unless) {
			t.missing = append(t.missing, k)
		}
		return nil
	}
	value := k.fallback
	if t.Watch != nil {
		if r := t.Watch[Join(t.Path, name)]; r != nil {
			r.Noted, r.Default = absence, true
			if value != nil {
				n := *value
				value = n.WatchedBy(r)
			}
		}
	}
	if absence != "" && !t.Mute {
		at := t.LastOwn()
		if t.Kind == "" && k.Kind == SubTable { // as are the defaults of what it would hold
			at = MaxBytes
		}
		t.Note(at, Join(t.Path, name), absence, true)
	}
	return value
}

// given reports whether the file has one of the keys.
func (t *Table) given(keys []string) bool { return slices.ContainsFunc(keys, t.Given) }

// Know makes keys known without reading them.
func (t *Table) Know(keys ...string) { t.known = append(t.known, keys...) }

// KnowOnly makes these keys the known ones.
func (t *Table) KnowOnly(keys ...string) { t.known = keys }

// Given reports whether the file has the key.
func (t *Table) Given(key string) bool { return t.Node.Under[key] != nil }

// LineOf returns the line of a key, or of the table where the key is not there.
func (t *Table) LineOf(key string) int {
	if n := t.Node.Under[key]; n != nil {
		return n.Line
	}
	return t.Node.Line
}

// LastOwn returns the offset after which the table's defaults are listed: that of
// its last value, before the tables inside it.
func (t *Table) LastOwn() int {
	at := t.Node.Offset
	for _, n := range t.Node.Under {
		if (n.Kind != TableNode || n.made == byValue) && (n.Kind != ListNode || n.made == byValue) {
			at = max(at, n.Offset)
		}
	}
	return at
}

// NoteValue notes a value of the file.
func (t *Table) NoteValue(key, text string) {
	n := t.Node.Under[key]
	if n == nil {
		return
	}
	if n.Read != nil {
		n.Read.Noted = text
	}
	if !t.Quiet && !t.Mute {
		t.Note(n.Offset, Join(t.Path, key), text, false)
	}
}

// Written returns a value as the file has it, with its range; else what is given
// in its place.
func (t *Table) Written(key, or string) string {
	if n := t.Node.Under[key]; n != nil {
		return strings.Join(strings.Fields(n.Text), " ") + n.Range.Ends()
	}
	return or
}

// Wrong reports the value of a key.
func (t *Table) Wrong(key, found, right, mean string) {
	t.Fail(t.LineOf(key), Join(t.Path, key), found, right, mean)
}

// WrongAt reports a value at its own line, which in a list may be further down.
func (t *Table) WrongAt(n *Node, key, found, right, mean string) {
	line := n.Line
	if line == 0 { // a default
		line = t.LineOf(key)
	}
	t.Fail(line, Join(t.Path, key), found, right, mean)
}

// Inner returns a table that is the value of a key.
func (t *Table) Inner(key string, n *Node) *Table {
	return t.Table(n, Join(t.Path, key), Join(t.Kind, key))
}

// Child returns the table under a key; nil where there is none.
func (t *Table) Child(key string) *Table {
	n := t.Ask(key)
	if n == nil {
		return nil
	}
	if n.Kind == ListNode && n.made == byRepeat {
		t.WrongAt(n, key, "[["+Join(t.Kind, key)+"]], which begins a list", "["+Join(t.Kind, key)+"], once", "")
		n = n.Items[0]
	}
	if n.Kind != TableNode {
		t.WrongAt(n, key, n.Shown(), "a table", "")
		return nil
	}
	return t.Inner(key, n)
}

// Children returns the tables of a list of tables.
func (t *Table) Children(key string) []*Node {
	k := t.Key(key)
	all := t.children(k, key)
	if len(all) == 0 && k.Absent != "" && !t.Mute {
		t.Note(t.LastOwn(), Join(t.Path, key), k.Absent, true)
	}
	return all
}

func (t *Table) children(k *Key, key string) []*Node {
	n := t.Ask(key)
	if n == nil {
		return nil
	}
	if n.Kind == TableNode {
		t.WrongAt(n, key, "["+key+"], a single table", "[["+key+"]], with double brackets: there may be several", "")
		return []*Node{n}
	}
	if n.Kind != ListNode {
		t.WrongAt(n, key, n.Shown(), "tables, each under [["+key+"]]", "")
		return nil
	}
	if len(n.Items) > k.Most {
		t.WrongAt(n, key, fmt.Sprintf("%d of them", len(n.Items)), fmt.Sprintf("at most %d", k.Most), "")
		return nil
	}
	if len(n.Items) == 0 {
		return nil
	}
	var good []*Node
	for _, item := range n.Items {
		if item.Kind != TableNode {
			t.WrongAt(item, key, item.Shown(), "a table", "")
			continue
		}
		good = append(good, item)
	}
	return good
}

// AtLeastOne reports a list of tables that is not there, or empty.
func (t *Table) AtLeastOne(key string) {
	n := t.Node.Under[key]
	if n == nil && t.misspelt(key) {
		return // Done says what was meant
	}
	if n == nil && !t.Cut || n != nil && n.Kind == ListNode && len(n.Items) == 0 {
		t.Fail(t.LineOf(key), key, "nothing", "at least one "+t.Key(key).Item+", under [["+key+"]]", "")
	}
}

// misspelt reports whether a key that is not there stands in the table in letters
// near to it.
func (t *Table) misspelt(key string) bool {
	var all []string
	for _, k := range t.Schema.Keys() {
		if Join(t.Kind, k.Name()) == k.Path {
			all = append(all, k.Name())
		}
	}
	return slices.ContainsFunc(t.Node.Keys, func(given string) bool {
		return !slices.Contains(all, given) && nearest.Name(given, all) == key
	})
}

// UnknownKey is what is found where nobody asks for a key.
const UnknownKey = "an unknown key"

// Done reports the keys that nobody asked for, and those that are required and
// missing. A missing key that stands there misspelt is reported once, as that.
func (t *Table) Done() {
	misspelt := map[string]bool{}
	unknown := 0
	slices.Sort(t.known)
	for _, key := range t.Node.Keys {
		if slices.Contains(t.known, key) {
			continue
		}
		if unknown++; unknown > maxErrors { // only counted, since the list ends before it
			t.Fail(t.Node.Under[key].Line, "", UnknownKey, "none", "")
			continue
		}
		mean := nearest.Name(key, t.known)
		misspelt[mean] = true
		if t.Node.Under[key].Kind == BrokenNode { // reported already
			continue
		}
		t.Fail(t.Node.Under[key].Line, Join(t.Path, key), UnknownKey, "one of "+strings.Join(t.known, ", "), mean)
	}
	for _, k := range t.missing {
		if !misspelt[k.Name()] && !t.Cut {
			right := k.Expected()
			if k.Missing != "" {
				right += ", or " + k.Missing
			}
			t.Fail(t.Node.Line, Join(t.Path, k.Name()), "nothing", right, "")
		}
	}
}
