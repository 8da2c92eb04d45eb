package toml

import "fmt"

// Fallback is what a key has where the file does not give it. The zero value
// leaves the target as it is and says nothing.
type Fallback struct {
	required bool
	value    *Node  // nil: the target is left as it is
	note     string // how the absence is noted; empty: not at all
}

// Required makes it an error that a key is not there.
var Required = Fallback{required: true}

// Absent leaves the target as it is and notes that in these words.
func Absent(words string) Fallback { return Fallback{note: words} }

// Default is a value, given as it would be written in the file.
func Default(value any) Fallback {
	n := &Node{Kind: FloatNode, Text: fmt.Sprint(value)}
	switch value.(type) {
	case string:
		n.Kind = StringNode
	case bool:
		n.Kind = BoolNode
	case int:
		n.Kind = IntegerNode
	}
	return Fallback{value: n, note: n.Text}
}

// watchedBy is the fallback with its value watched.
func (f Fallback) watchedBy(r *ReadValue) Fallback {
	if f.value != nil {
		n := *f.value
		f.value = n.WatchedBy(r)
	}
	return f
}
