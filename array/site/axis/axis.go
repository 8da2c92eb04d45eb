package axis

import (
	"math"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/toml"
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
	// OwnText is the file's own value as the assumptions list it; "differs from drive
	// to drive" where several differ; "not given: default 24 h" where it is a default.
	OwnText string
	// Resizes says that the drive or the layout of choices is set, so that drives
	// are better made to fit; see [Resize].
	Resizes bool

	scale    scale
	targets  []target
	own      []current // one a target, of multiples only
	overLife bool      // multiples of the hazard of a drive's life
}

// Value is one value of an axis.
type Value struct {
	Shown float64 // in the axis's Unit; NaN for words
	Text  string  // "24 h"

	base float64    // in the unit computed in; of multiples the factor
	node *toml.Node // of words
	made bool       // by this package
	// drawn says that it comes of the law of a fit, whose errors have then had their say.
	drawn bool
}

// Set returns the setting that gives the input a value of its axis.
func (a *Axis) Set(v Value) Setting { return Setting{Axis: a, Value: v} }

// At returns the value of any number between the ends of a numeric axis; beyond them
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

// settle returns a value that can be set: one with nothing but a number is looked up.
func (a *Axis) settle(v Value) (Value, *site.Error) {
	if v.made {
		return v, nil
	}
	if v = a.At(v.Shown); !v.made {
		return v, &site.Error{Key: a.Path, Found: "no value", Right: "one of the values of the input"}
	}
	return v, nil
}

// node returns what a value puts in one of the axis's places; nil: nothing.
func (a *Axis) node(root *toml.Node, v Value, place int) *toml.Node {
	switch {
	case a.overLife:
		was := a.own[place].number()
		if n := root.Find(a.targets[place].steps); n != nil { // as another setting may have it
			was, _ = n.Float()
		}
		return &toml.Node{Kind: toml.MeasuredNode, Value: was * v.base, Text: scale{factor: 1}.text(was*v.base, fewDigits)}
	case a.scale.unit == times:
		if o := a.own[place]; o.Node != nil {
			return multiplied(o.Node, v.base)
		}
		return nil
	case v.node != nil:
		return v.node.Copy()
	}
	return &toml.Node{Kind: toml.MeasuredNode, Value: v.base, Text: v.Text}
}

// numeric makes a numeric axis of numbers in the unit computed in, in order.
func (a *Axis) numeric(bases []float64, texts []string) {
	a.Numeric, a.Unit = true, a.scale.unit
	a.Log = byRatio(bases[0], bases[len(bases)-1])
	for i, base := range bases {
		a.Values = append(a.Values, Value{Shown: a.scale.shown(base), Text: texts[i], base: base, made: true})
	}
}

// among says from what to what the places of a path go: "drive to drive".
func among(targets []target) string {
	first, last := targets[0].steps, targets[len(targets)-1].steps
	if len(first) < 2 || first[1] == last[1] { // values of one list
		return "value to value"
	}
	switch first[0].Key {
	case "cameras":
		return "camera group to camera group"
	case "drives":
		return "drive to drive"
	}
	return "choice to choice"
}

// describe sets Own and OwnText to what the file has.
func (a *Axis) describe(all []current) {
	a.Own, a.OwnText = math.NaN(), all[0].words
	v := all[0].number()
	for _, o := range all[1:] {
		if o.words != all[0].words {
			a.OwnText = "differs from " + among(a.targets)
		}
		if o.number() != v {
			v = math.NaN()
		}
	}
	for _, o := range all {
		if o.updated {
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

// spaced returns a text with single blanks.
func spaced(s string) string { return strings.Join(strings.Fields(s), " ") }
