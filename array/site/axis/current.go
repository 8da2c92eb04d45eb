package axis

import (
	"math"

	"arrayodds/array/site"
	"arrayodds/array/toml"
)

// current is what the file has at a place: a node with all that was read of it, nil
// where no default is read either.
type current struct {
	*toml.Node
	byDefault bool
	updated   bool   // the site's log makes another rate of it
	words     string // how it is listed
}

// number returns the place's number; NaN where it is none.
func (o current) number() float64 {
	if o.Node == nil || !o.Read.Numeric {
		return math.NaN()
	}
	return o.Read.Value
}

// owns finds what the file has at some places, by reading it once more.
func (s *Source) current(targets []target) []current {
	o := s.doc.Overlay()
	watch := map[string]*toml.ReadValue{}
	all := make([]current, len(targets))
	watched := map[string]*toml.Node{}
	for i, t := range targets {
		steps := t.steps
		n := o.Root.Find(steps)
		if from := site.Inherited(steps); n == nil && from != nil {
			steps = from
			n = o.Root.Find(steps)
		}
		key := s.doc.PathOf(steps)
		switch {
		case watched[key] != nil:
			n = watched[key]
		case n != nil:
			n = n.CopyWith(func(c *toml.Node) { c.Read = &toml.ReadValue{} })
			o.Set(steps, n, n.Line)
		default:
			n = &toml.Node{Kind: toml.MeasuredNode, Read: &toml.ReadValue{}}
			watch[key] = n.Read
		}
		watched[key] = n
		all[i] = current{Node: n}
	}
	s.doc.ReadTree(o.Root, site.Reading{Lenient: true, Mute: true, Watch: watch})
	for i := range all {
		o := &all[i]
		o.words, o.byDefault = o.Read.Noted, o.Read.Default
		if o.words == "" && o.Kind == toml.MeasuredNode { // nothing was asked for: why, is said further up
			o.words = s.listed(targets[i].steps)
		}
		switch {
		case o.byDefault && o.Read.Numeric, o.byDefault && o.words == "none":
			o.words = "not given: default " + o.words
		case o.words == "":
			o.words = o.written()
		}
		if at := targets[i].steps; at[len(at)-1].Key != "hazard_multiplier" && s.doc.Updated(at) {
			o.updated = true
			o.words += ", which the site's log updates"
		}
		if o.Kind == toml.MeasuredNode {
			if o.Read.Numeric {
				o.Value = o.Read.Value
			} else {
				o.Node = nil
			}
		}
	}
	return all
}

// written returns a node that the reader lists nowhere, in words.
func (o current) written() string {
	if o.Node == nil || o.Kind == toml.MeasuredNode {
		return "not given"
	}
	return o.Brief()
}

// listed returns the assumption on a place, or on what the place lies in.
func (s *Source) listed(steps []toml.Step) string {
	for n := len(steps); n > 0; n-- {
		at := s.doc.PathOf(steps[:n])
		for _, a := range s.File().Assumptions {
			if a.Path == at {
				return a.Text
			}
		}
	}
	return ""
}
