package site

import (
	"math"
	"strings"
)

// MaxPoints is the most values that an axis has.
const MaxPoints = 500

// Axis is an input of the site file with the values that it is to take. It is
// made by [Source.Axis] or [Source.Inputs] and does not change.
type Axis struct {
	Path string // as errors and assumptions say it
	// Unit is what Shown counts in, as the first value was written: "h", "%", "TB";
	// "bits" for read errors (bits read per error); "" for plain numbers and words;
	// "x" for multiples of what the file has.
	Unit    string
	Values  []Value // one or more; numbers in ascending order
	Numeric bool    // false: words
	Log     bool    // spaced by ratio: all above 0, and the last at least 8 times the first
	// Own is the file's own value in Unit: NaN where it is no single number, or
	// differs among the places that the path names. It is 1 for multiples.
	Own float64
	// OwnText is the file's own value as the assumptions list it; "differs" where
	// several differ; "not given: default 24 h" where it is a default.
	OwnText string
	// Resizes says that the drive or the layout of choices is set, so that drives
	// are better made to fit; see [Resize].
	Resizes bool

	scale    scale
	targets  []target
	own      []owned // one a target, of multiples only
	overLife bool    // multiples of the hazard of a drive's life
}

// Value is one value of an axis.
type Value struct {
	Shown float64 // in the axis's Unit; NaN for words
	Text  string  // "24 h"

	base float64 // in the unit computed in; of multiples the factor
	node *node   // of words
	made bool    // by this package
}

// Set is the setting that gives the input a value of its axis.
func (a *Axis) Set(v Value) Setting { return Setting{Axis: a, Value: v} }

// At is the value of any number between the ends of a numeric axis; beyond them
// it is the end, and for whole numbers the nearest one.
func (a *Axis) At(shown float64) Value {
	for _, v := range a.Values {
		if v.Shown == shown {
			return v
		}
	}
	if !a.Numeric || math.IsNaN(shown) {
		return Value{Shown: math.NaN()}
	}
	base := min(max(shown*a.scale.factor, a.Values[0].base), a.Values[len(a.Values)-1].base)
	if a.scale.whole {
		base = math.Round(base)
	}
	return Value{Shown: a.scale.shown(base), Text: a.scale.text(base, fewDigits), base: base, made: true}
}

// settle is a value that can be set: one with nothing but a number is looked up.
func (a *Axis) settle(v Value) (Value, *Error) {
	if v.made {
		return v, nil
	}
	if v = a.At(v.Shown); !v.made {
		return v, &Error{Key: a.Path, Found: "no value", Right: "one of the values of the input"}
	}
	return v, nil
}

// node is what a value puts in one of the axis's places; nil: nothing.
func (a *Axis) node(root *node, v Value, place int) *node {
	switch {
	case a.overLife:
		was := a.own[place].number()
		if n := root.find(a.targets[place].steps); n != nil { // as another setting may have it
			was, _ = n.float()
		}
		return &node{kind: measured, value: was * v.base, text: scale{factor: 1}.text(was*v.base, fewDigits)}
	case a.scale.unit == times:
		if o := a.own[place]; o.node != nil {
			return o.node.multiplied(v.base)
		}
		return nil
	case v.node != nil:
		return v.node.copied(func(*node) {})
	}
	return &node{kind: measured, value: v.base, text: v.Text}
}

// numeric makes a numeric axis of numbers in the unit computed in, in order.
func (a *Axis) numeric(bases []float64, texts []string) {
	a.Numeric, a.Unit = true, a.scale.unit
	a.Log = byRatio(bases[0], bases[len(bases)-1])
	for i, base := range bases {
		a.Values = append(a.Values, Value{Shown: a.scale.shown(base), Text: texts[i], base: base, made: true})
	}
}

// describe tells what the file has.
func (a *Axis) describe(all []owned) {
	a.Own, a.OwnText = math.NaN(), all[0].words
	v := all[0].number()
	for _, o := range all[1:] {
		if o.words != all[0].words {
			a.OwnText = "differs"
		}
		if o.number() != v {
			v = math.NaN()
		}
	}
	switch {
	case a.scale.unit == times:
		a.Own = 1
	case a.Numeric:
		a.Own = a.scale.shown(v)
	}
}

// multiplied is a node with its number, the lengths of its law or the rates of its
// list so many times as large. All of it must be seen.
func (n *node) multiplied(by float64) *node {
	c := n.copied(func(*node) {})
	switch {
	case n.kind == tables:
		for key, under := range n.under {
			if under.kind == tables || under.seen.numeric && under.seen.sort.named == aTime.named {
				c.under[key] = under.multiplied(by)
			}
		}
	case n.kind == list:
		for i, item := range n.items {
			c.items[i] = item.multiplied(by)
		}
	case n.seen.numeric:
		v := n.seen.value * by
		if n.seen.whole {
			v = math.Round(v)
		}
		c = &node{kind: measured, line: n.line, offset: n.offset, value: v, text: scaleOf(*n.seen).text(v, fewDigits)}
	}
	c.seen, c.span = nil, nil
	for _, under := range c.under {
		under.seen = nil
	}
	return c
}

// numbers are what multiples multiply.
func (n *node) numbers() (all []seen) {
	switch {
	case n == nil:
	case n.kind == tables:
		for _, key := range n.keys {
			if under := n.under[key]; under.kind == tables || under.seen.numeric && under.seen.sort.named == aTime.named {
				all = append(all, under.numbers()...)
			}
		}
	case n.kind == list:
		for _, item := range n.items {
			all = append(all, item.numbers()...)
		}
	case n.seen.numeric:
		all = append(all, *n.seen)
	}
	return all
}

// manifold are the keys whose tables and lists are multiplied as one.
var manifold = []string{"notice", "response", "restock", "scrub", "restore", "latent_defects", "afr_by_year"}

// spaced is a text with single blanks.
func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }
