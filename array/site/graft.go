package site

// grafter makes a tree in which some nodes are others. Of the tree that it begins
// with nothing is changed: what lies on the way to a new node is copied.
type grafter struct {
	root *node
	own  map[*node]bool // copied already
}

func newGrafter(root *node) *grafter { return &grafter{root: root, own: map[*node]bool{}} }

// set puts a node in its place. Tables that are not there yet are made, with line
// as their place. What a choice inherits of a law or part is copied first, so that
// one number of it can be set.
func (g *grafter) set(steps []step, v *node, line int) {
	if from := inherited(steps); len(from) > 2 && g.root.find(steps[:4]) == nil {
		if n := g.root.find(from[:2]); n != nil && n.kind == tables {
			own := *n
			g.root = g.put(g.root, steps[:4], &own, line)
		}
	}
	g.root = g.put(g.root, steps, v, line)
}

// alone are the keys that are the whole of a law: put beside another law, they
// take its place.
var alone = map[string]bool{"afr": true, "mtbf": true, "exponential": true}

func (g *grafter) put(n *node, steps []step, v *node, line int) *node {
	if len(steps) == 0 {
		if n != nil {
			v.offset = n.offset
		}
		return v
	}
	n = g.mine(n, line)
	s := steps[0]
	if s.key == "" {
		n.items[s.item] = g.put(n.items[s.item], steps[1:], v, line)
		return n
	}
	old := n.under[s.key]
	if old == nil && alone[s.key] && len(n.keys) > 0 {
		fresh := newTable(byValue, n.line, n.offset)
		g.own[fresh] = true
		n = fresh
	}
	if old == nil {
		v.offset = n.offset
		n.keys = append(n.keys, s.key)
	}
	n.under[s.key] = g.put(old, steps[1:], v, line)
	return n
}

// mine is a table or list that may be changed: n itself, a copy of it, or a new
// table where there is none.
func (g *grafter) mine(n *node, line int) *node {
	switch {
	case g.own[n]:
		return n
	case n == nil:
		n = newTable(byPath, line, maxBytes)
	case n.kind == tables || n.kind == list:
		c := *n
		c.span, c.seen = nil, nil
		c.keys = append([]string(nil), n.keys...)
		c.items = append([]*node(nil), n.items...)
		c.under = make(map[string]*node, len(n.under)+1)
		for key, under := range n.under {
			c.under[key] = under
		}
		n = &c
	default:
		n = newTable(byValue, line, n.offset)
	}
	g.own[n] = true
	return n
}

// copied is a copy of a node and all beneath it. change makes of each what it is
// to be.
func (n *node) copied(change func(*node)) *node {
	c := *n
	c.keys = append([]string(nil), n.keys...)
	c.items = nil
	for _, item := range n.items {
		c.items = append(c.items, item.copied(change))
	}
	if n.under != nil {
		c.under = make(map[string]*node, len(n.under))
		for key, under := range n.under {
			c.under[key] = under.copied(change)
		}
	}
	change(&c)
	return &c
}
