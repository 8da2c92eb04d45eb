package edit

import (
	"strings"

	"arrayodds/array/toml"
)

// Written returns a value as it is written; one that headers or dotted keys make as it
// would be in brackets.
func (t *Text) Written(n *Node) string {
	if n.To > 0 {
		return t.Source(n)
	}
	var all []string
	if n.Kind == List {
		for _, item := range n.Items {
			all = append(all, t.Written(item))
		}
		return "[" + strings.Join(all, ", ") + "]"
	}
	for _, key := range n.Keys {
		all = append(all, toml.QuoteKey(key)+" = "+t.Written(n.Under[key]))
	}
	if len(all) == 0 {
		return "{ }"
	}
	return "{ " + strings.Join(all, ", ") + " }"
}
