package toml

// ReadValue is what the reader makes of a node.
type ReadValue struct {
	Numeric   bool     // a number, or a length of time without chance
	Quantity  Quantity // of what; without a parser: a plain number
	Whole     bool     // only whole numbers are read there
	Value     float64  // in the unit computed in
	Low, High float64  // what it has to lie between
	Written   string   // the number with its unit
	Noted     string   // as the notes have it
	Default   bool     // the file does not give it
}

// WatchedBy has what the reader makes of the node put down in r.
func (n *Node) WatchedBy(r *ReadValue) *Node {
	n.Read = r
	return n
}

// observe puts down what a node was read as, where somebody wants to know.
func (n *Node) observe(as ReadValue) {
	if n.Read == nil {
		return
	}
	as.Noted, as.Default = n.Read.Noted, n.Read.Default
	if as.Written == "" {
		as.Written = n.Text
	}
	if as.Noted == "" {
		as.Noted = as.Written
	}
	*n.Read = as
}
