package edit

import (
	"bytes"
	"fmt"
	"slices"
	"strings"

	"arrayodds/array/toml"
)

// Style is where new keys and tables go. Tables are named by the keys on the way to
// them with points between, items left out: "choices.care"; the top is "".
type Style struct {
	// Order returns the keys of a table in the order in which they are best put.
	Order func(table string) []string
	// Headed reports whether a table is put under a header of its own, and not written
	// { }.
	Headed func(table string) bool
}

// Set returns the text with a value, which is TOML, at the end of some steps. What is
// there is replaced, its comments left; else the key and the tables on the way are made.
func (t *Text) Set(steps []Step, value string, style Style) ([]byte, error) {
	if err := t.whole(); err != nil {
		return nil, err
	}
	value = t.own(value)
	n, depth := t.Root, 0
	for depth < len(steps) {
		next := n.Find(steps[depth])
		if next == nil {
			break
		}
		n, depth = next, depth+1
	}
	rest := steps[depth:]
	for _, s := range rest {
		if s.Key == nil {
			return nil, fmt.Errorf("there is no item %d", s.Item+1)
		}
	}
	switch {
	case len(steps) == 0 || n == t.Root && len(rest) == 0:
		return nil, fmt.Errorf("nothing to set")
	case len(rest) == 0 && (n.To > 0):
		return t.replace(n, value), nil
	case len(rest) == 0 && n.keyedItem:
		return nil, fmt.Errorf("an item of a list cannot be set as a whole")
	case len(rest) == 0: // made of headers or dotted keys: taken away, and put there as one
		return Parse(t.without(n)).Set(steps, value, style)
	case n.Kind == Table:
		return t.put(n, rest, value, style)
	case n.To > 0: // no table: takes its place
		return t.replace(n, inline(rest, value)), nil
	}
	return nil, fmt.Errorf("a list, which has no keys")
}

// whole returns an error where the text was not read to its end.
func (t *Text) whole() error {
	if t.Cut > 0 {
		return fmt.Errorf("the text cannot be read from line %d on: mend that first", t.Cut)
	}
	return nil
}

// replace returns the text with another value in the place of one.
func (t *Text) replace(n *Node, value string) []byte {
	if n.Kind == Broken { // whose equals sign may be missing
		return t.Apply(Splice{n.key, n.To, toml.QuoteKey(n.name) + " = " + value})
	}
	return t.Apply(Splice{n.From, n.To, value})
}

// inline returns a value with the tables around it that steps lead through.
func inline(steps []Step, value string) string {
	for _, s := range slices.Backward(steps) {
		value = "{ " + toml.QuoteKey(*s.Key) + " = " + value + " }"
	}
	return value
}

// put returns the text with a key that a table does not have, and what is beneath it.
func (t *Text) put(in *Node, rest []Step, value string, style Style) ([]byte, error) {
	name := *rest[0].Key
	where := strings.Join(append(in.path(), name), ".")
	holder, prefix := in, ""
	for holder.made == byDots {
		prefix = toml.QuoteKey(holder.name) + "." + prefix
		holder = holder.in
	}
	if len(rest) > 1 && in.made != byDots && in.made != byValue && style.Headed(where) {
		return t.Apply(t.insertTable(in, name, toml.QuoteKey(*rest[1].Key)+" = "+inline(rest[2:], value)+"\n", style)), nil
	}
	entry := prefix + toml.QuoteKey(name) + " = " + inline(rest[1:], value)
	switch {
	case holder.made == byValue && in == holder:
		return t.Apply(t.insertEntry(in, entry)), nil
	case holder.made == byValue:
		last := lastLeaf(in)
		return t.Apply(Splice{last.To, last.To, ", " + entry}), nil
	case in.made == byDots:
		var last *line
		for _, l := range t.linesOf(in) {
			if l.table == holder {
				last = l
			}
		}
		return t.Apply(t.insert(last.to, t.indent(last)+entry+"\n")), nil
	case in.made == byPath: // has no header yet
		first := t.linesOf(in)[0]
		return t.Apply(t.insert(t.blockAbove(first.from), "["+header(in.path())+"]\n"+entry+"\n\n")), nil
	}
	return t.Apply(t.insertLine(in, name, entry, style)), nil
}

// header returns what stands between the brackets of a header.
func header(keys []string) string {
	quoted := make([]string, len(keys))
	for i, key := range keys {
		quoted[i] = toml.QuoteKey(key)
	}
	return strings.Join(quoted, ".")
}

// lastLeaf returns the value of a dotted table that stands last.
func lastLeaf(n *Node) *Node {
	last := n
	for _, under := range n.Under {
		leaf := under
		if under.made == byDots && under.Kind == Table && under.To == 0 {
			leaf = lastLeaf(under)
		}
		if leaf.To > last.To {
			last = leaf
		}
	}
	return last
}

// linesOf returns the lines of what is in a table, its header among them.
func (t *Text) linesOf(n *Node) (all []*line) {
	for _, l := range t.lines {
		if l.node.within(n) {
			all = append(all, l)
		}
	}
	return all
}

// insertEntry puts an entry into a table that is written { }.
func (t *Text) insertEntry(in *Node, entry string) Splice {
	last := 0
	for _, under := range in.Under {
		last = max(last, lastLeaf(under).To)
	}
	if last == 0 {
		return Splice{in.From, in.To, "{ " + entry + " }"}
	}
	return Splice{last, last, ", " + entry}
}

// insertLine puts a key among the lines of a table, behind the last of those that come
// before it in order.
func (t *Text) insertLine(in *Node, name, entry string, style Style) Splice {
	order := style.Order(strings.Join(in.path(), "."))
	place := slices.Index(order, name)
	var first, behind *line
	for _, l := range t.lines {
		if l.header || l.table != in {
			continue
		}
		if first == nil {
			first = l
		}
		if own := slices.Index(order, t.topKey(l, in)); place < 0 || own >= 0 && own < place {
			behind = l
		}
	}
	switch {
	case behind != nil:
		return t.insert(behind.to, t.indent(behind)+entry+"\n")
	case in.lines != nil:
		return t.insert(in.lines.to, entry+"\n")
	case first != nil:
		return t.insert(t.blockAbove(first.from), entry+"\n")
	case len(t.lines) > 0:
		return t.insert(t.blockAbove(t.lines[0].from), entry+"\n\n")
	}
	return t.insert(len(t.data), entry+"\n")
}

// topKey returns the first part of the key of a line in a table.
func (t *Text) topKey(l *line, in *Node) string {
	n := l.node
	for n.in != nil && n.in != in {
		n = n.in
	}
	return n.name
}

// indent returns the blanks at the start of a line.
func (t *Text) indent(l *line) string {
	text := t.data[l.from:l.to]
	return string(text[:len(text)-len(bytes.TrimLeft(text, " \t"))])
}

// insertTable puts a new table with its lines into the top or into an item.
func (t *Text) insertTable(in *Node, name, lines string, style Style) Splice {
	lines = "[" + header(append(in.path(), name)) + "]\n" + lines
	if in != t.Root {
		all := t.spans(in)
		return t.insert(all[len(all)-1].to, lines)
	}
	return t.insertSection(name, lines, style)
}

// insertSection puts the lines of a new table of the top behind the last of those that
// come before it in order, or else at the end.
func (t *Text) insertSection(name, lines string, style Style) Splice {
	at := 0
	order := style.Order("")
	for _, before := range order[:max(slices.Index(order, name), 0)] {
		n := t.Root.Under[before]
		if n == nil || n.To > 0 || n.made == byDots {
			continue
		}
		for _, s := range t.spans(n) {
			at = max(at, s.to)
		}
	}
	if at == 0 {
		at = len(t.data)
	}
	return t.insertApart(at, lines)
}

// insertApart puts lines in with a blank line on either side.
func (t *Text) insertApart(at int, lines string) Splice {
	before := bytes.LastIndexByte(t.data[:max(at-1, 0)], '\n') + 1
	if len(bytes.TrimSpace(t.data[before:at])) > 0 {
		lines = "\n" + lines
	}
	if at < len(t.data) && len(bytes.TrimSpace(t.data[at:t.lineAfter(at)])) > 0 {
		lines += "\n"
	}
	return t.insert(at, lines)
}
