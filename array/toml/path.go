package toml

import (
	"fmt"
	"strconv"
	"strings"
	"unicode"

	"arrayodds/array/unit"
)

// maxPlainKey is how long a key is, in characters, that is shown without quotes.
const maxPlainKey = 80

// plainKey reports whether a key reads well without quotes.
func plainKey(key string) bool {
	n := 0
	for _, r := range key {
		if n++; n > maxPlainKey || !unicode.IsLetter(r) && !unicode.IsMark(r) && !unicode.IsNumber(r) && !unit.IsJoiner(r) && !strings.ContainsRune(" _.,;:+/()&'×–-", r) {
			return false
		}
	}
	return strings.TrimFunc(key, unit.IsJoiner) != ""
}

// dotted puts the parts of a key behind the path they are under.
func dotted(under string, parts []string) string {
	for _, p := range parts {
		under = Join(under, p)
	}
	return under
}

// Join puts a key behind the path it is under. A key that would not read well is
// quoted.
func Join(under, key string) string {
	if !plainKey(key) {
		key = unit.Quote(key)
	}
	if under == "" {
		return key
	}
	return under + "." + key
}

// Step is one step down the tree: to a key of a table or, where that is empty,
// to an item of a list, from 0.
type Step struct {
	Key  string
	Item int
}

// Find returns the value at the end of some steps; nil where there is none.
func (n *Node) Find(steps []Step) *Node {
	for _, s := range steps {
		switch {
		case n == nil:
			return nil
		case s.Key != "":
			n = n.Under[s.Key]
		case n.Kind != ListNode || s.Item >= len(n.Items):
			return nil
		default:
			n = n.Items[s.Item]
		}
	}
	return n
}

// PathOf returns how errors and notes name a place: things in lists at the top by
// their labels, items of other lists by their number, from 1.
func (d *Document) PathOf(steps []Step) string {
	path := ""
	n := d.Root
	for i, s := range steps {
		switch {
		case s.Key != "":
			path = Join(path, s.Key)
		case i == 1 && n != nil && s.Item < len(n.Items):
			path = Join(path, d.LabelOf(n.Items[s.Item], steps[0].Key, s.Item))
		default:
			path = Join(path, strconv.Itoa(s.Item+1))
		}
		n = n.Find(steps[i : i+1])
	}
	return path
}

// LabelOf returns the label of an item of the list under a key at the top, or what
// it is called that has none.
func (d *Document) LabelOf(item *Node, list string, number int) string {
	if l := item.Find([]Step{{Key: "label"}}); l != nil && l.Kind == StringNode {
		return strings.TrimSpace(l.Text)
	}
	name := list
	if d.Unlabelled[list] != "" {
		name = d.Unlabelled[list]
	}
	return fmt.Sprintf("%s %d", name, number+1)
}
