package toml

import (
	"strconv"
	"strings"

	"arrayodds/array/unit"
)

// NodeKind is what a value of the file is.
type NodeKind int

// The kinds of value. MeasuredNode is a number in the unit computed in, which no
// file can hold: code puts it in the place of a value. BrokenNode is a value whose
// line has a mistake that is reported already.
const (
	BrokenNode NodeKind = iota
	StringNode
	IntegerNode
	FloatNode // a number with a point or an exponent
	BoolNode
	DateNode // a date or a time of day
	TableNode
	ListNode
	MeasuredNode
)

// named returns the kind with its article, as an error says it.
func (k NodeKind) named() string {
	return [...]string{"a mistake", "a text", "a number", "a number", "true or false", "a date", "a table", "a list", "a number"}[k]
}

// Node is a value of the file with its place.
type Node struct {
	Kind   NodeKind
	Line   int // of its key, from 1; of an item of a list, its own
	Offset int // in bytes from the start of the file
	Text   string
	Items  []*Node
	Keys   []string // in the order of the file
	Under  map[string]*Node
	made   made

	Value float64 // of a MeasuredNode
	// Typed says that the text comes from a command line, where no quotes tell
	// texts from numbers.
	Typed bool
	Range *UncertainRange // the range whose likely value this is; nil: none
	Read  *ReadValue      // where what the reader makes of it is put down; nil: nowhere
}

// made is how a table or list came to be, which decides what may be added.
type made int

const (
	byValue  made = iota // { } or [ ]: closed
	byPath               // the a of [a.b]
	byHeader             // [a]
	byRepeat             // [[a]]
	byDots               // the a of a.b = 1
)

// NewTable returns an empty table with its place.
func NewTable(line, offset int) *Node { return newTable(byValue, line, offset) }

func newTable(made made, line, offset int) *Node {
	return &Node{Kind: TableNode, made: made, Line: line, Offset: offset, Under: map[string]*Node{}}
}

// Add puts a value under a key that is not yet there.
func (n *Node) Add(key string, value *Node) {
	n.Keys = append(n.Keys, key)
	n.Under[key] = value
}

// Shown returns the value as an error repeats it.
func (n *Node) Shown() string {
	switch n.Kind {
	case StringNode:
		return unit.Quote(n.Text)
	case TableNode, ListNode, BrokenNode:
		return n.Kind.named()
	}
	return strings.Trim(unit.Quote(n.Text), `"`)
}

// Brief returns the value in a few words: tables as their keys and values, lists
// with commas between.
func (n *Node) Brief() string {
	var all []string
	switch n.Kind {
	case ListNode:
		for _, item := range n.Items {
			all = append(all, item.Brief())
		}
		return strings.Join(all, ", ")
	case TableNode:
	default:
		return spaced(n.Text)
	}
	for _, key := range n.Keys {
		all = append(all, strings.TrimSpace(key+" "+n.Under[key].Brief()))
	}
	return strings.Join(all, ", ")
}

// spaced returns a text with single blanks.
func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }

// Float returns a number's value; false where it is none or does not fit.
func (n *Node) Float() (float64, bool) {
	s := strings.ReplaceAll(n.Text, "_", "")
	switch n.Kind {
	case IntegerNode:
		i, err := strconv.ParseInt(s, 0, 64)
		return float64(i), err == nil
	case FloatNode:
		f, err := strconv.ParseFloat(s, 64)
		return f, err == nil && f-f == 0 // neither infinite nor NaN
	case StringNode:
		f, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		return f, n.Typed && err == nil && f-f == 0
	case MeasuredNode:
		return n.Value, true
	}
	return 0, false
}

// integer returns a whole number's value, a decimal without a fraction included.
func (n *Node) integer() (int64, bool) {
	if n.Kind == IntegerNode {
		i, err := strconv.ParseInt(strings.ReplaceAll(n.Text, "_", ""), 0, 64)
		return i, err == nil
	}
	f, ok := n.Float()
	if !ok || f != float64(int64(f)) || f > 1<<53 || f < -1<<53 {
		return 0, false
	}
	return int64(f), true
}

// Is reports whether the value is a text that says this word, case and blanks at
// its ends aside.
func (n *Node) Is(word string) bool {
	return n.Kind == StringNode && strings.EqualFold(strings.TrimSpace(n.Text), word)
}

// IsNone reports whether the value is the text "none".
func (n *Node) IsNone() bool { return n.Is("none") }

// Copy returns a copy of the value and all beneath it.
func (n *Node) Copy() *Node { return n.CopyWith(func(*Node) {}) }

// CopyWith returns a copy as Copy does, in which change makes of each value what it is to be.
func (n *Node) CopyWith(change func(*Node)) *Node {
	c := *n
	c.Keys = append([]string(nil), n.Keys...)
	c.Items = nil
	for _, item := range n.Items {
		c.Items = append(c.Items, item.CopyWith(change))
	}
	if n.Under != nil {
		c.Under = make(map[string]*Node, len(n.Under))
		for key, under := range n.Under {
			c.Under[key] = under.CopyWith(change)
		}
	}
	change(&c)
	return &c
}

// Move gives the value and all beneath it another line as their place.
func (n *Node) Move(line int) {
	n.Line = line
	for _, under := range n.Under {
		under.Move(line)
	}
	for _, item := range n.Items {
		item.Move(line)
	}
}
