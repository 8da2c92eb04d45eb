package site

import (
	"fmt"
	"strings"
	"unicode"

	"arrayodds/array/unit"

	"github.com/pelletier/go-toml/v2/unstable"
)

// builder puts the expressions of the text into the tree by TOML's rules of
// what may be defined once and what may be added to.
type builder struct {
	*document
	parser *unstable.Parser
	from   int    // offset of the parser's text in the file
	table  *node  // what the last header opened
	header string // its key, for people
}

// maxKeyParts bounds the depth of dotted keys and headers.
const maxKeyParts = 16

func (b *builder) offset(n *unstable.Node) int { return b.from + int(n.Raw.Offset) }

func (b *builder) expression(e *unstable.Node) {
	keys, at := b.key(e)
	line := b.lineAt(at)
	if len(keys) > maxKeyParts {
		b.fail(line, "", fmt.Sprintf("a key of %d parts", len(keys)), fmt.Sprintf("at most %d", maxKeyParts), "")
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

// key is the parts of an expression's key and the offset of the first.
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

// open is the table of a header. Where the header contradicts an earlier one,
// it is a table by itself, so that its keys do no harm.
func (b *builder) open(keys []string, line, at int, repeat bool) *node {
	in := b.root
	last := len(keys) - 1
	for _, k := range keys[:last] {
		next := in.under[k]
		switch {
		case next == nil:
			next = newTable(byPath, line, at)
			in.add(k, next)
		case next.kind == list && next.made == byRepeat:
			next = next.items[len(next.items)-1]
		case next.kind != tables || next.made == byValue:
			return b.clash(dotted("", keys), next, line, at)
		}
		in = next
	}
	was := in.under[keys[last]]
	fresh := newTable(byHeader, line, at)
	switch {
	case was == nil && repeat:
		in.add(keys[last], &node{kind: list, made: byRepeat, line: line, offset: at, items: []*node{fresh}})
	case was == nil:
		in.add(keys[last], fresh)
	case repeat && was.kind == list && was.made == byRepeat:
		was.items = append(was.items, fresh)
	case !repeat && was.kind == tables && was.made == byPath:
		was.made, was.line, was.offset = byHeader, line, at
		return was
	default:
		return b.clash(dotted("", keys), was, line, at)
	}
	return fresh
}

// clash reports a key or header that is there already.
func (b *builder) clash(key string, was *node, line, at int) *node {
	right := "one of them"
	if was.kind == list && was.made == byRepeat {
		right = "double brackets on each, as on the first: [[" + key + "]]"
	}
	b.fail(line, key, fmt.Sprintf("it a second time (the first is on line %d)", was.line), right, "")
	return newTable(byHeader, line, at)
}

// assign puts a value under a key, which may be dotted. under is where, for
// people.
func (b *builder) assign(in *node, under string, keys []string, value *unstable.Node, line, at int) {
	last := len(keys) - 1
	for _, k := range keys[:last] {
		next := in.under[k]
		if next == nil {
			next = newTable(byDots, line, at)
			in.add(k, next)
		} else if next.kind != tables || next.made != byDots {
			b.clash(dotted(under, keys), next, line, at)
			return
		}
		in = next
	}
	if was := in.under[keys[last]]; was != nil {
		b.clash(dotted(under, keys), was, line, at)
		return
	}
	in.add(keys[last], b.value(value, dotted(under, keys), line, at))
}

// value is a value of the file. The parser bounds the depth of nesting.
func (b *builder) value(v *unstable.Node, under string, line, at int) *node {
	n := &node{line: line, offset: at, text: string(v.Data)}
	switch v.Kind {
	case unstable.String:
		n.kind = text
	case unstable.Integer:
		n.kind = whole
	case unstable.Float:
		n.kind = decimal
	case unstable.Bool:
		n.kind = truth
	case unstable.Array:
		n.kind = list
		for it := v.Children(); it.Next(); {
			item := it.Node()
			at := max(at, b.offset(item)) // an array within has no place of its own
			n.items = append(n.items, b.value(item, under, b.lineAt(at), at))
		}
	case unstable.InlineTable:
		n = newTable(byValue, line, at)
		for it := v.Children(); it.Next(); {
			pair := it.Node()
			keys, at := b.key(pair)
			if len(keys) > maxKeyParts {
				b.fail(b.lineAt(at), "", fmt.Sprintf("a key of %d parts", len(keys)), fmt.Sprintf("at most %d", maxKeyParts), "")
				continue
			}
			b.assign(n, under, keys, pair.Value(), b.lineAt(at), at)
		}
	default:
		n.kind = date
	}
	return n
}

// maxPlainKey is how long a key is, in characters, that is shown without quotes.
const maxPlainKey = 80

// plainKey says whether a key reads well without quotes.
func plainKey(key string) bool {
	n := 0
	for _, r := range key {
		if n++; n > maxPlainKey || !unicode.IsLetter(r) && !unicode.IsNumber(r) && !strings.ContainsRune(" _.,;:+/()&'×–-", r) {
			return false
		}
	}
	return n > 0
}

// dotted puts the parts of a key behind the path they are under.
func dotted(under string, parts []string) string {
	for _, p := range parts {
		under = path(under, p)
	}
	return under
}

// path puts a key behind the path it is under. A key that would not read well
// is quoted.
func path(under, key string) string {
	if !plainKey(key) {
		key = unit.Quote(key)
	}
	if under == "" {
		return key
	}
	return under + "." + key
}
