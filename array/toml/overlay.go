package toml

// Overlay makes a tree in which some values are others. Of the tree that it begins
// with nothing is changed: what lies on the way to a new value is copied.
type Overlay struct {
	Root *Node
	// Alone reports whether a key is the whole of the table at a path of keys: put
	// beside others, it takes their place. nil: none is.
	Alone func(table, key string) bool

	own map[*Node]bool // copied already
}

// NewOverlay returns the tree under root, to be changed.
func NewOverlay(root *Node) *Overlay { return &Overlay{Root: root, own: map[*Node]bool{}} }

// Set puts a value in its place. Tables that are not there yet are made, with line
// as their place.
func (o *Overlay) Set(steps []Step, v *Node, line int) {
	o.Root = o.put(o.Root, "", steps, v, line)
}

// put returns n, which stands at a path of keys, with v at the end of the steps.
func (o *Overlay) put(n *Node, path string, steps []Step, v *Node, line int) *Node {
	if len(steps) == 0 {
		if n != nil {
			v.Offset = n.Offset
		}
		return v
	}
	n = o.mine(n, line)
	s := steps[0]
	if s.Key == "" {
		n.Items[s.Item] = o.put(n.Items[s.Item], path, steps[1:], v, line)
		return n
	}
	old := n.Under[s.Key]
	if old == nil && len(n.Keys) > 0 && o.Alone != nil && o.Alone(path, s.Key) {
		fresh := newTable(byValue, n.Line, n.Offset)
		o.own[fresh] = true
		n = fresh
	}
	if old == nil {
		v.Offset = n.Offset
		n.Keys = append(n.Keys, s.Key)
	}
	n.Under[s.Key] = o.put(old, Join(path, s.Key), steps[1:], v, line)
	return n
}

// mine returns a table or list that may be changed: n itself, a copy of it, or a new
// table where there is none.
func (o *Overlay) mine(n *Node, line int) *Node {
	switch {
	case o.own[n]:
		return n
	case n == nil:
		n = newTable(byPath, line, MaxBytes)
	case n.Kind == TableNode || n.Kind == ListNode:
		c := *n
		c.Range, c.Read = nil, nil
		c.Keys = append([]string(nil), n.Keys...)
		c.Items = append([]*Node(nil), n.Items...)
		c.Under = make(map[string]*Node, len(n.Under)+1)
		for key, under := range n.Under {
			c.Under[key] = under
		}
		n = &c
	default:
		n = newTable(byValue, line, n.Offset)
	}
	o.own[n] = true
	return n
}
