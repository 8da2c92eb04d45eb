package toml

import (
	"strconv"
	"strings"
)

// Write returns the tree of a file as the text of one that says the same: values first,
// then tables under their headings. Comments are not kept. What a file cannot hold, a
// number in the unit computed in, stands as it would be written; a range stands as such.
func (n *Node) Write() string {
	var b strings.Builder
	var tables []string
	for _, key := range n.Keys {
		v := n.Under[key]
		if v.Range == nil && (v.Kind == TableNode || v.tables()) {
			tables = append(tables, key)
			continue
		}
		b.WriteString(QuoteKey(key) + " = " + v.value() + "\n")
	}
	for _, key := range tables {
		v := n.Under[key]
		if v.Kind == TableNode {
			b.WriteString("\n[" + QuoteKey(key) + "]\n" + v.values())
			continue
		}
		for _, item := range v.Items {
			b.WriteString("\n[[" + QuoteKey(key) + "]]\n" + item.values())
		}
	}
	return b.String()
}

// tables reports whether a list holds tables.
func (n *Node) tables() bool {
	return n.Kind == ListNode && len(n.Items) > 0 && n.Items[0].Kind == TableNode
}

// values returns the keys of a table with their values, a line each.
func (n *Node) values() string {
	var b strings.Builder
	for _, key := range n.Keys {
		b.WriteString(QuoteKey(key) + " = " + n.Under[key].value() + "\n")
	}
	return b.String()
}

// value returns a value on one line.
func (n *Node) value() string {
	if r := n.Range; r != nil {
		return "{ low = " + r.Low.value() + ", likely = " + r.Likely.bare() + ", high = " + r.High.value() + " }"
	}
	return n.bare()
}

// bare returns a value without the range that it is the likely one of.
func (n *Node) bare() string {
	switch n.Kind {
	case TableNode:
		var all []string
		for _, key := range n.Keys {
			all = append(all, QuoteKey(key)+" = "+n.Under[key].value())
		}
		return "{ " + strings.Join(all, ", ") + " }"
	case ListNode:
		var all []string
		for _, item := range n.Items {
			all = append(all, item.value())
		}
		return "[" + strings.Join(all, ", ") + "]"
	case StringNode:
		if _, number := n.Float(); number { // typed, where no quotes tell texts from numbers
			return strings.TrimSpace(n.Text)
		}
		if text := strings.TrimSpace(n.Text); n.Typed && (text == "true" || text == "false") {
			return text
		}
		return Quote(n.Text)
	case MeasuredNode:
		if _, err := strconv.ParseFloat(n.Text, 64); err != nil {
			return Quote(n.Text)
		}
	}
	return n.Text
}

// Quote returns a text as TOML writes it.
func Quote(s string) string {
	var b strings.Builder
	b.WriteByte('"')
	for _, r := range s {
		switch {
		case r == '"' || r == '\\':
			b.WriteRune('\\')
			b.WriteRune(r)
		case r < ' ' || r == 0x7f:
			b.WriteString(`\u` + strings.Repeat("0", 4-len(strconv.FormatInt(int64(r), 16))) + strconv.FormatInt(int64(r), 16))
		default:
			b.WriteRune(r)
		}
	}
	b.WriteByte('"')
	return b.String()
}

// QuoteKey returns a key as TOML writes it, in quotes where it needs them.
func QuoteKey(key string) string {
	bare := key != ""
	for _, r := range key {
		bare = bare && (r >= 'a' && r <= 'z' || r >= 'A' && r <= 'Z' || r >= '0' && r <= '9' || r == '_' || r == '-')
	}
	if bare {
		return key
	}
	return Quote(key)
}
