package axis

import (
	"fmt"
	"math"
	"slices"
	"strconv"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/toml"
	"arrayodds/array/unit"
)

// multiples reads multiples of what the file has.
func (s *Source) multiples(a *Axis, items []string, ranged bool, points int) *site.Error {
	var by []float64
	for i, item := range items {
		v, ok := multiple(item)
		if !ok && ranged && i == 1 { // x0.5..2
			v, ok = multiple("x" + item)
		}
		if !ok || !(v >= 1e-6 && v <= 1e6) {
			return &site.Error{Key: a.Path, Found: unit.Quote(item), Right: "a multiple, such as x0.5 (0.000001 to 1 000 000)"}
		}
		by = append(by, v)
	}
	if ranged {
		if by[0] >= by[1] {
			return &site.Error{Key: a.Path, Found: "a range that does not rise", Right: "the smaller number first"}
		}
		by = spread(by[0], by[1], points, false)
	} else {
		slices.Sort(by)
		if i := twice(by); i >= 0 {
			return &site.Error{Key: a.Path, Found: fmt.Sprintf("×%s twice", unit.Digits(by[i], mostDigits)), Right: "each value once"}
		}
	}
	return s.multiply(a, by)
}

// multiply makes an axis of multiples.
func (s *Source) multiply(a *Axis, by []float64) *site.Error {
	a.scale = scale{unit: times, factor: 1}
	all := s.current(a.targets)
	a.describe(all)
	if last := a.targets[0].steps; len(last) == 3 && last[0].Key == "drives" && last[2].Key == "life" {
		a.overLife = true
		a.targets = slices.Clone(a.targets)
		for i, t := range a.targets {
			a.targets[i] = s.target(append(slices.Clone(t.steps[:2]), toml.Step{Key: "hazard_multiplier"}))
		}
		all = s.current(a.targets)
	}
	some := false
	for i, o := range all {
		last := a.targets[i].steps[len(a.targets[i].steps)-1]
		if o.Node != nil && (o.Kind == toml.TableNode || o.Kind == toml.ListNode) && !slices.Contains(manifold, last.Key) {
			return &site.Error{Key: a.Path, Found: "multiples of a whole table", Right: "one of its keys: " + strings.Join(o.Keys, ", ")}
		}
		some = some || len(numbers(o.Node)) > 0
	}
	if right := s.wholePaths(a); !some && right != "" {
		return &site.Error{Key: a.Path, Found: toml.UnknownKey, Right: right}
	}
	if !some {
		if e := s.unknown(a.targets[0]); e != nil {
			return &site.Error{Key: a.Path, Found: e.Found, Right: e.Right, Mean: e.Mean}
		}
		return &site.Error{Key: a.Path, Found: fmt.Sprintf("multiples of %s", unit.Quote(a.OwnText)), Right: "values to take its place"}
	}
	a.own = all
	a.numeric(by, a.scale.texts(by))
	return nil
}

// unknown returns what the reader says of a place for which there is no key; nil
// where there is one.
func (s *Source) unknown(t target) *site.Error {
	const line = -1
	o := s.doc.Overlay()
	o.Set(t.steps, &toml.Node{Kind: toml.StringNode, Typed: true, Line: line}, line)
	_, errs := s.doc.ReadTree(o.Root, site.Reading{Lenient: true, Mute: true})
	for _, e := range errs {
		if e.Found == toml.UnknownKey && e.Line == line {
			return &e
		}
	}
	return nil
}

// multiple reads "x0.5" or "×0.5".
func multiple(typed string) (float64, bool) {
	rest, ok := strings.CutPrefix(typed, "x")
	if !ok {
		rest, ok = strings.CutPrefix(typed, "×")
	}
	v, err := strconv.ParseFloat(strings.TrimSpace(rest), 64)
	return v, ok && err == nil
}

// multiplied returns a node with its number, the lengths of its law or the rates of its
// list so many times as large. All of it must have been read.
func multiplied(n *toml.Node, by float64) *toml.Node {
	c := n.Copy()
	switch {
	case n.Kind == toml.TableNode:
		for key, under := range n.Under {
			if under.Kind == toml.TableNode || under.Read.Numeric && under.Read.Quantity.Name == toml.Hours.Name {
				c.Under[key] = multiplied(under, by)
			}
		}
	case n.Kind == toml.ListNode:
		for i, item := range n.Items {
			c.Items[i] = multiplied(item, by)
		}
	case n.Read.Numeric:
		v := n.Read.Value * by
		if n.Read.Whole {
			v = math.Round(v)
		}
		c = &toml.Node{Kind: toml.MeasuredNode, Line: n.Line, Offset: n.Offset, Value: v, Text: scaleOf(*n.Read).text(v, fewDigits)}
	}
	c.Read, c.Range = nil, nil
	for _, under := range c.Under {
		under.Read = nil
	}
	return c
}

// numbers returns what multiples multiply.
func numbers(n *toml.Node) (all []toml.ReadValue) {
	switch {
	case n == nil:
	case n.Kind == toml.TableNode:
		for _, key := range n.Keys {
			if under := n.Under[key]; under.Kind == toml.TableNode || under.Read.Numeric && under.Read.Quantity.Name == toml.Hours.Name {
				all = append(all, numbers(under)...)
			}
		}
	case n.Kind == toml.ListNode:
		for _, item := range n.Items {
			all = append(all, numbers(item)...)
		}
	case n.Read.Numeric:
		all = append(all, *n.Read)
	}
	return all
}

// manifold are the keys whose tables and lists are multiplied as one.
var manifold = []string{"notice", "response", "restock", "scrub", "restore", "latent_defects", "afr_by_year"}
