package divide

import "arrayodds/sim/model"

// Tree adds blocks of a run pairwise. The zero Tree has none.
type Tree struct {
	sys   *model.System
	nodes []node // from left to right, those that could be added were
	free  []*model.Sums
}

// node is the sums of blocks Index·2^Level up to (Index + 1)·2^Level.
type node struct {
	Level, Index int
	sums         *model.Sums
}

// begins and ends return the blocks of a node: from, and up to.
func (n node) begins() int { return n.Index << n.Level }
func (n node) ends() int   { return (n.Index + 1) << n.Level }

// NewTree returns a tree for blocks of lives of a system.
func NewTree(sys *model.System) *Tree { return &Tree{sys: sys} }

// Add adds the sums of a block, which stay the caller's: the block after that which was
// added last.
func (t *Tree) Add(block int, sums *model.Sums) {
	var own *model.Sums
	if n := len(t.free); n > 0 {
		own, t.free = t.free[n-1], t.free[:n-1]
		own.Reset()
	} else {
		own = model.NewSums(t.sys)
	}
	own.Add(sums)
	t.push(node{0, block, own})
}

// push puts a node to the right of all others.
func (t *Tree) push(n node) {
	t.nodes = append(t.nodes, n)
	for k := len(t.nodes) - 1; k > 0; k-- {
		left, right := &t.nodes[k-1], t.nodes[k]
		if left.Level != right.Level || left.Index != right.Index-1 || left.Index%2 != 0 {
			return
		}
		left.sums.Add(right.sums)
		t.free = append(t.free, right.sums)
		left.Level, left.Index = left.Level+1, left.Index/2
		t.nodes = t.nodes[:k]
	}
}

// Total returns the sums of all blocks, added from left to right where they are no whole
// node.
func (t *Tree) Total() *model.Sums {
	total := model.NewSums(t.sys)
	for _, n := range t.nodes {
		total.Add(n.sums)
	}
	return total
}
