package site

import "math"

// seen is what the reader makes of a node.
type seen struct {
	numeric   bool     // a number, or a length of time without chance
	sort      quantity // of what; without a parser: a plain number
	whole     bool     // only whole numbers are read there
	value     float64  // in the unit computed in
	low, high float64  // what it has to lie between
	written   string   // the number with its unit
	told      string   // as it is listed in the assumptions
	byDefault bool     // the file does not give it
}

// saw puts down what a node was read as, where somebody wants to know.
func (n *node) saw(as seen) {
	if n.seen == nil {
		return
	}
	as.told, as.byDefault = n.seen.told, n.seen.byDefault
	if as.written == "" {
		as.written = n.text
	}
	if as.told == "" {
		as.told = as.written
	}
	*n.seen = as
}

// owned is what the file has at a place: a node of which everything is seen, nil
// where no default is read either.
type owned struct {
	*node
	byDefault bool
	words     string // how it is listed
}

// number is the place's number; NaN where it is none.
func (o owned) number() float64 {
	if o.node == nil || !o.seen.numeric {
		return math.NaN()
	}
	return o.seen.value
}

// owns finds what the file has at some places, by reading it once more.
func (s *Source) owns(targets []target) []owned {
	g := newGrafter(s.document.root)
	watch := map[string]*seen{}
	all := make([]owned, len(targets))
	watched := map[string]*node{}
	for i, t := range targets {
		steps := t.steps
		n := g.root.find(steps)
		if from := inherited(steps); n == nil && from != nil {
			steps = from
			n = g.root.find(steps)
		}
		key := s.document.pathOf(steps)
		switch {
		case watched[key] != nil:
			n = watched[key]
		case n != nil:
			n = n.copied(func(c *node) { c.seen = &seen{} })
			g.set(steps, n, n.line)
		default:
			n = &node{kind: measured, seen: &seen{}}
			watch[key] = n.seen
		}
		watched[key] = n
		all[i] = owned{node: n}
	}
	s.read(g.root, reading{again: true, soft: true, mute: true, watch: watch})
	for i := range all {
		o := &all[i]
		o.words, o.byDefault = o.seen.told, o.seen.byDefault
		if o.words == "" && o.kind == measured { // nothing was asked for: why, is said further up
			o.words = s.listed(targets[i].steps)
		}
		switch {
		case o.byDefault && o.seen.numeric, o.byDefault && o.words == "none":
			o.words = "not given: default " + o.words
		case o.words == "":
			o.words = o.written()
		}
		if o.kind == measured {
			if o.seen.numeric {
				o.value = o.seen.value
			} else {
				o.node = nil
			}
		}
	}
	return all
}

// written is a node that the reader lists nowhere, in words.
func (o owned) written() string {
	if o.node == nil || o.kind == measured {
		return "not given"
	}
	return o.brief()
}

// listed is the assumption on a place, or on what the place lies in.
func (s *Source) listed(steps []step) string {
	for n := len(steps); n > 0; n-- {
		at := s.document.pathOf(steps[:n])
		for _, a := range s.file.Assumptions {
			if a.Path == at {
				return a.Text
			}
		}
	}
	return ""
}
