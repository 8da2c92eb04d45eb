package edit

import (
	"bytes"
	"fmt"
	"strings"
)

// Remove returns the text without what stands at the end of some steps. A table that is
// then empty goes too, unless a comment stands in it. Where there is nothing, the text
// stays.
func (t *Text) Remove(steps []Step) ([]byte, error) {
	if err := t.whole(); err != nil {
		return nil, err
	}
	n := t.Root.Find(steps...)
	switch {
	case n == t.Root:
		return nil, fmt.Errorf("nothing to remove")
	case n == nil:
		return t.Bytes(), nil
	}
	text := t.without(n)
	for len(steps) > 1 {
		steps = steps[:len(steps)-1]
		t = Parse(text)
		in := t.Root.Find(steps...)
		if in == nil { // went with it
			continue
		}
		if in.Kind != Table || len(in.Keys) > 0 || in.keyedItem || !t.bareHeader(in) {
			break
		}
		text = t.without(in)
	}
	return text, nil
}

// bareHeader reports whether a table without keys has no comment that it would take
// along.
func (t *Text) bareHeader(n *Node) bool {
	if n.made != byHeader {
		return true
	}
	l := n.lines
	if bytes.IndexByte(t.data[l.end:l.to], '#') >= 0 || t.blockAbove(l.from) < l.from {
		return false
	}
	next := len(t.data)
	for _, other := range t.lines {
		if other.from >= l.to {
			next = t.blockAbove(other.from)
			break
		}
	}
	return bytes.IndexByte(t.data[l.to:max(next, l.to)], '#') < 0
}

// without returns the text without a value, table or item.
func (t *Text) without(n *Node) []byte {
	switch {
	case n.To > 0 && n.lines != nil: // a line
		return t.Apply(Splice{n.lines.from, n.lines.to, ""})
	case n.To > 0:
		return t.Apply(t.outOf(n))
	case n.made == byDots && n.Kind == Table && n.holder().made == byValue:
		holder := n.holder()
		return t.Apply(Splice{holder.From, holder.To, t.bracesWithout(holder, n)})
	}
	var all []Splice
	for _, s := range t.spans(n) {
		if s.headed {
			s = t.widened(s)
		}
		all = append(all, Splice{s.from, s.to, ""})
	}
	return t.Apply(all...)
}

// holder returns the table that dotted keys stand in.
func (n *Node) holder() *Node {
	for n.made == byDots {
		n = n.in
	}
	return n
}

// bracesWithout returns a table that is written { } without what lies in another.
func (t *Text) bracesWithout(holder, out *Node) string {
	var kept []string
	var walk func(n *Node)
	walk = func(n *Node) {
		for _, key := range n.Keys {
			switch under := n.Under[key]; {
			case under == out:
			case under.To > 0:
				kept = append(kept, string(t.data[under.key:under.To]))
			default:
				walk(under)
			}
		}
	}
	walk(holder)
	if len(kept) == 0 {
		return "{ }"
	}
	return "{ " + strings.Join(kept, ", ") + " }"
}

// outOf returns the splice that takes an entry out of the table or list in brackets that
// it stands in, with one comma.
func (t *Text) outOf(n *Node) Splice {
	from, to := n.From, n.To
	if !n.keyedItem {
		from = n.key
	}
	at := to
	for at < len(t.data) && bytes.IndexByte([]byte(" \t\r\n#"), t.data[at]) >= 0 {
		if t.data[at] == '#' {
			at = t.lineAfter(at)
			continue
		}
		at++
	}
	if at < len(t.data) && t.data[at] == ',' { // another may follow
		at++
		for at < len(t.data) && (t.data[at] == ' ' || t.data[at] == '\t') {
			at++
		}
		return Splice{from, at, ""}
	}
	before := from
	for before > 0 && bytes.IndexByte([]byte(" \t\r\n"), t.data[before-1]) >= 0 {
		before--
	}
	if before > 0 && t.data[before-1] == ',' {
		return Splice{before - 1, to, ""}
	}
	return Splice{from, to, ""}
}
