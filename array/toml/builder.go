package toml

import (
	"fmt"

	"github.com/pelletier/go-toml/v2/unstable"
)

// builder puts the expressions of the text into the tree by TOML's rules of
// what may be defined once and what may be added to.
type builder struct {
	*Document
	parser *unstable.Parser
	from   int    // offset of the parser's text in the file
	table  *Node  // what the last header opened
	header string // its key, for people
	values int    // so far, tables and lists among them
}

// maxKeyParts bounds the depth of dotted keys and headers.
const maxKeyParts = 16

// count counts one value more, and reports whether it may be kept. The first that
// may not is reported.
func (b *builder) count(line int) bool {
	if b.values++; b.values == maxValues+1 {
		b.Fail(line, "", fmt.Sprintf("more than %d values in the file", maxValues), "a file of fewer", "")
	}
	return b.values <= maxValues
}

func (b *builder) offset(n *unstable.Node) int { return b.from + int(n.Raw.Offset) }

func (b *builder) expression(e *unstable.Node) {
	keys, at := b.key(e)
	line := b.lineAt(at)
	if e.Kind != unstable.KeyValue && !b.count(line) {
		return
	}
	if len(keys) > maxKeyParts {
		b.Fail(line, "", fmt.Sprintf("a key of %d parts", len(keys)), fmt.Sprintf("at most %d", maxKeyParts), "")
		if e.Kind != unstable.KeyValue {
			b.table = newTable(byHeader, line, at)
		}
		return
	}
	switch e.Kind {
	case unstable.KeyValue:
		b.assign(b.table, b.header, keys, e.Value(), line, at)
	case unstable.Table, unstable.ArrayTable:
		b.table, b.header = b.open(keys, line, at, e.Kind == unstable.ArrayTable), dotted("", keys)
	}
}

// key returns the parts of an expression's key and the offset of the first.
func (b *builder) key(e *unstable.Node) (parts []string, at int) {
	it := e.Key()
	for it.Next() {
		if len(parts) == 0 {
			at = b.offset(it.Node())
		}
		parts = append(parts, string(it.Node().Data))
	}
	return parts, at
}

// open returns the table of a header. Where the header contradicts an earlier one,
// it is a table by itself, so that its keys do no harm.
func (b *builder) open(keys []string, line, at int, repeat bool) *Node {
	in := b.Root
	last := len(keys) - 1
	for _, k := range keys[:last] {
		next := in.Under[k]
		switch {
		case next == nil:
			next = newTable(byPath, line, at)
			in.Add(k, next)
		case next.Kind == ListNode && next.made == byRepeat:
			next = next.Items[len(next.Items)-1]
		case next.Kind != TableNode || next.made == byValue:
			return b.clash(dotted("", keys), next, line, at)
		}
		in = next
	}
	was := in.Under[keys[last]]
	fresh := newTable(byHeader, line, at)
	switch {
	case was == nil && repeat:
		in.Add(keys[last], &Node{Kind: ListNode, made: byRepeat, Line: line, Offset: at, Items: []*Node{fresh}})
	case was == nil:
		in.Add(keys[last], fresh)
	case repeat && was.Kind == ListNode && was.made == byRepeat:
		was.Items = append(was.Items, fresh)
	case !repeat && was.Kind == TableNode && was.made == byPath:
		was.made, was.Line, was.Offset = byHeader, line, at
		return was
	default:
		return b.clash(dotted("", keys), was, line, at)
	}
	return fresh
}

// clash reports a key or header that is there already.
func (b *builder) clash(key string, was *Node, line, at int) *Node {
	right := "one of them"
	if was.Kind == ListNode && was.made == byRepeat {
		right = "double brackets on each, as on the first: [[" + key + "]]"
	}
	if !b.count(line) {
		return newTable(byHeader, line, at)
	}
	b.Fail(line, key, fmt.Sprintf("it a second time (the first is on line %d)", was.Line), right, "")
	return newTable(byHeader, line, at)
}

// assign puts a value under a key, which may be dotted. under is where, for
// people.
func (b *builder) assign(in *Node, under string, keys []string, value *unstable.Node, line, at int) {
	last := len(keys) - 1
	for _, k := range keys[:last] {
		next := in.Under[k]
		if next == nil {
			next = newTable(byDots, line, at)
			in.Add(k, next)
		} else if next.Kind != TableNode || next.made != byDots {
			b.clash(dotted(under, keys), next, line, at)
			return
		}
		in = next
	}
	if was := in.Under[keys[last]]; was != nil {
		b.clash(dotted(under, keys), was, line, at)
		return
	}
	in.Add(keys[last], b.value(value, dotted(under, keys), line, at))
}

// value returns a value of the file. The depth of nesting is bounded by [measure].
func (b *builder) value(v *unstable.Node, under string, line, at int) *Node {
	n := &Node{Line: line, Offset: at, Text: string(v.Data)}
	if !b.count(line) {
		return n
	}
	switch v.Kind {
	case unstable.String:
		n.Kind = StringNode
	case unstable.Integer:
		n.Kind = IntegerNode
	case unstable.Float:
		n.Kind = FloatNode
	case unstable.Bool:
		n.Kind = BoolNode
	case unstable.Array:
		n.Kind = ListNode
		for it := v.Children(); it.Next(); {
			item := it.Node()
			at := max(at, b.offset(item)) // an array within has no place of its own
			n.Items = append(n.Items, b.value(item, under, b.lineAt(at), at))
		}
	case unstable.InlineTable:
		n = newTable(byValue, line, at)
		for it := v.Children(); it.Next(); {
			pair := it.Node()
			keys, at := b.key(pair)
			if len(keys) > maxKeyParts {
				b.Fail(b.lineAt(at), "", fmt.Sprintf("a key of %d parts", len(keys)), fmt.Sprintf("at most %d", maxKeyParts), "")
				continue
			}
			b.assign(n, under, keys, pair.Value(), b.lineAt(at), at)
		}
	default:
		n.Kind = DateNode
	}
	return n
}
