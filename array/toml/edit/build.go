package edit

import (
	"github.com/pelletier/go-toml/v2/unstable"
)

// builder puts the expressions of a text into the tree.
type builder struct {
	*Text
	parser *unstable.Parser
	from   int   // offset of the parser's text
	table  *Node // what the last header opened
}

// part is one part of a dotted key.
type part struct {
	name     string
	from, to int
}

func (b *builder) parts(e *unstable.Node) (all []part) {
	it := e.Key()
	for it.Next() {
		n := it.Node()
		from := b.from + int(n.Raw.Offset)
		all = append(all, part{string(n.Data), from, from + int(n.Raw.Length)})
	}
	return all
}

func (b *builder) expression(e *unstable.Node) {
	keys := b.parts(e)
	first, last := keys[0], keys[len(keys)-1]
	number := b.lineAt(first.from)
	l := &line{from: b.starts[number-1]}
	if e.Kind == unstable.KeyValue {
		l.end = b.from + int(e.Raw.Offset+e.Raw.Length)
		l.table = b.table
		l.node = b.pair(b.table, keys, e.Value(), l)
	} else {
		l.end = last.to
		for l.end < len(b.data) && b.data[l.end] != ']' {
			l.end++
		}
		for l.end < len(b.data) && b.data[l.end] == ']' {
			l.end++
		}
		l.header = true
		b.table = b.open(keys, e.Kind == unstable.ArrayTable, number, l)
		l.node = b.table
	}
	l.to = b.lineAfter(l.end)
	b.lines = append(b.lines, l)
}

// open returns the table of a header. One that contradicts an earlier header is
// detached.
func (b *builder) open(keys []part, repeat bool, number int, l *line) *Node {
	clash := func() *Node {
		n := newTable(byHeader, nil, "")
		n.detached, n.lines, n.Line = true, l, number
		return n
	}
	in := b.Root
	last := len(keys) - 1
	for _, k := range keys[:last] {
		next := in.Under[k.name]
		switch {
		case next == nil:
			next = newTable(byPath, in, k.name)
			next.Line = number
			in.add(next)
		case next.Kind == List && next.made == byRepeat:
			next = next.Items[len(next.Items)-1]
		case next.Kind != Table || next.made == byValue:
			return clash()
		}
		in = next
	}
	name := keys[last].name
	was := in.Under[name]
	switch {
	case repeat && was == nil:
		was = &Node{Kind: List, made: byRepeat, in: in, name: name, Line: number}
		in.add(was)
		return b.item(was, number, l)
	case repeat && was.Kind == List && was.made == byRepeat:
		return b.item(was, number, l)
	case was == nil:
		n := newTable(byHeader, in, name)
		n.lines, n.Line = l, number
		in.add(n)
		return n
	case !repeat && was.Kind == Table && was.made == byPath:
		was.made, was.lines, was.Line = byHeader, l, number
		return was
	}
	return clash()
}

// item adds a table to a list.
func (b *builder) item(list *Node, number int, l *line) *Node {
	n := newTable(byRepeat, list, list.name)
	n.keyedItem, n.lines, n.Line = true, l, number
	list.Items = append(list.Items, n)
	return n
}

// pair puts a value under its key, which may be dotted.
func (b *builder) pair(in *Node, keys []part, value *unstable.Node, l *line) *Node {
	last := len(keys) - 1
	for _, k := range keys[:last] {
		next := in.Under[k.name]
		if next == nil {
			next = newTable(byDots, in, k.name)
			next.Line = b.lineAt(k.from)
			in.add(next)
		} else if next.Kind != Table || next.made != byDots {
			in = newTable(byDots, nil, "")
			in.detached = true
			break
		}
		in = next
	}
	n := b.value(value, b.pastEquals(keys[last].to))
	n.name, n.key, n.keyEnd, n.lines, n.in = keys[last].name, keys[0].from, keys[last].to, l, in
	n.Line = b.lineAt(n.key)
	b.put(in, n)
	return n
}

// put puts a value under its key where that is free.
func (b *builder) put(in *Node, n *Node) {
	if in.Under[n.name] != nil {
		n.detached, n.in = true, nil
		return
	}
	in.add(n)
}
