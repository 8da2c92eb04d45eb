package edit

import (
	"bytes"

	"github.com/pelletier/go-toml/v2/unstable"
)

// value returns a value that begins at an offset. That it is TOML the parser has
// found; here its bytes are found too, which the parser does not tell of lists and
// tables.
func (b *builder) value(v *unstable.Node, at int) *Node {
	n := &Node{From: at, Line: b.lineAt(at)}
	switch v.Kind {
	case unstable.Array:
		n.Kind = List
		at++
		for it := v.Children(); it.Next(); {
			item := b.value(it.Node(), b.pastCommas(at))
			item.in, item.keyedItem = n, true
			n.Items = append(n.Items, item)
			at = item.To
		}
		n.To = b.pastCommas(at) + 1
	case unstable.InlineTable:
		n.Kind, n.Under = Table, map[string]*Node{}
		at++
		for it := v.Children(); it.Next(); {
			pair := it.Node()
			at = b.pair(n, b.parts(pair), pair.Value(), nil).To
		}
		n.To = b.pastCommas(at) + 1
	default:
		n.Kind = Bare
		if v.Kind == unstable.String {
			n.Kind = String
		}
		n.Text = string(v.Data)
		n.From = b.from + int(v.Raw.Offset)
		n.To = n.From + int(v.Raw.Length)
	}
	return n
}

// pastEquals returns the offset of the value behind a key that ends at an offset.
func (b *builder) pastEquals(at int) int {
	for at < len(b.data) && bytes.IndexByte([]byte(" \t="), b.data[at]) >= 0 {
		at++
	}
	return at
}

// pastCommas returns the offset of the next value or bracket within a list or table.
func (b *builder) pastCommas(at int) int {
	for at < len(b.data) {
		switch b.data[at] {
		case ' ', '\t', '\r', '\n', ',':
			at++
		case '#':
			at = b.lineAfter(at)
		default:
			return at
		}
	}
	return at
}
