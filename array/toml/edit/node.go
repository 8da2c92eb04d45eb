package edit

import "slices"

// Kind is what a value is.
type Kind int

// The kinds of value. A Bare one is a number, true or false, or a date; a Broken one
// cannot be read.
const (
	Broken Kind = iota
	String
	Bare
	Table
	List
)

// Node is a value with its place in the text.
type Node struct {
	Kind  Kind
	Text  string // of a String, and of a Bare or Broken value as it is written
	Items []*Node
	Keys  []string // in the order of the text
	Under map[string]*Node
	// From and To are the bytes of the value; both 0 where it is made of headers, lines
	// or dotted keys.
	From, To int
	Line     int // of its key or header, from 1; of an item of a list, its own

	name      string // its key; of an item the list's
	in        *Node  // the table or list that it stands in
	made      made
	key       int   // offset of its key, where it has a key with a value of its own
	keyEnd    int   // of the whole key, with its points
	lines     *line // the key's or header's line; nil within a value
	detached  bool  // it contradicts an earlier one and is in no table
	keyedItem bool  // it is an item of a list
}

// made is how a table or list came to be.
type made int

const (
	byValue  made = iota // { } or [ ]
	byPath               // the a of [a.b]
	byHeader             // [a]
	byRepeat             // [[a]]
	byDots               // the a of a.b = 1
)

// Step is one step down: to a key or, if Key is nil, to an item of a list.
type Step struct {
	Key  *string
	Item int
}

// Key returns the step to a key.
func Key(name string) Step { return Step{Key: &name} }

// Item returns the step to an item of a list, from 0.
func Item(n int) Step { return Step{Item: n} }

// Find returns the value at the end of some steps; nil where there is none.
func (n *Node) Find(steps ...Step) *Node {
	for _, s := range steps {
		switch {
		case n == nil:
			return nil
		case s.Key != nil:
			n = n.Under[*s.Key]
		case n.Kind != List || s.Item < 0 || s.Item >= len(n.Items):
			return nil
		default:
			n = n.Items[s.Item]
		}
	}
	return n
}

// ByValue reports whether a table or list is written as a value, { } or [ ].
func (n *Node) ByValue() bool { return n.made == byValue }

func newTable(how made, in *Node, name string) *Node {
	return &Node{Kind: Table, made: how, Under: map[string]*Node{}, in: in, name: name}
}

// add puts a value under a key that is free.
func (n *Node) add(v *Node) {
	n.Keys = append(n.Keys, v.name)
	n.Under[v.name] = v
}

// path returns the keys on the way to a node, items left out.
func (n *Node) path() (keys []string) {
	for ; n != nil && n.in != nil; n = n.in {
		if !n.keyedItem {
			keys = append(keys, n.name)
		}
	}
	slices.Reverse(keys)
	return keys
}

// within reports whether a node is another or lies in it.
func (n *Node) within(other *Node) bool {
	for ; n != nil; n = n.in {
		if n == other {
			return true
		}
	}
	return false
}

// KeyAt returns the bytes of the key that a value stands under, with its points where it
// is dotted; 0, 0 where it has none of its own.
func (n *Node) KeyAt() (from, to int) { return n.key, n.keyEnd }
