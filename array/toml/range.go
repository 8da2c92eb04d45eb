package toml

import (
	"fmt"
	"slices"
	"strings"

	"arrayodds/array/nearest"
	"arrayodds/array/unit"
)

// MaxRanges bounds the ranges of a file.
const MaxRanges = 100

// UncertainRange is a range, { low, likely, high }, that stands in place of a
// value. The node that the reader meets there is the likely one, which points here.
type UncertainRange struct {
	At                []Step
	Path              string // for people
	Line              int
	Low, Likely, High *Node
	// ReadLow and ReadHigh are what the ends were read as in the place of the likely
	// value, where somebody did that.
	ReadLow, ReadHigh ReadValue

	asked, used bool // its key was asked for; and by one that reads numbers or times
}

var rangeKeys = []string{"low", "likely", "high"}

// Ends returns a range as it is noted behind its likely value; "" where there is
// none.
func (u *UncertainRange) Ends() string {
	if u == nil {
		return ""
	}
	return fmt.Sprintf(" (%s to %s)", u.Low.Brief(), u.High.Brief())
}

// isRange reports whether a table is meant as a range.
func (n *Node) isRange() bool {
	found := 0
	for _, key := range rangeKeys {
		if n.Under[key] != nil {
			found++
		}
	}
	return found > 1 || found == 1 && n.made == byValue
}

// FindRanges puts the likely value of every range of the tree in its place, and
// returns the ranges in the order of the file. single reports whether a place says
// nothing that could be uncertain, so that a range there is an error.
func (d *Document) FindRanges(single func(at []Step) bool) (all []*UncertainRange) {
	var walk func(n *Node, at []Step) *Node
	walk = func(n *Node, at []Step) *Node {
		switch { // at is one slice for all, which a range must not keep
		case n.Kind == TableNode && len(at) > 0 && n.isRange():
			u := d.newRange(n, slices.Clone(at), single(at))
			if u == nil {
				return &Node{Kind: BrokenNode, Line: n.Line, Offset: n.Offset}
			}
			all = append(all, u)
			if len(all) == MaxRanges+1 {
				d.Fail(n.Line, u.Path, fmt.Sprintf("more than %d ranges", MaxRanges), fmt.Sprintf("at most %d in a file", MaxRanges), "")
			}
			likely := *u.Likely
			likely.Offset, likely.Range = n.Offset, u
			return &likely
		case n.Kind == TableNode:
			for _, key := range n.Keys {
				n.Under[key] = walk(n.Under[key], append(at, Step{Key: key}))
			}
		case n.Kind == ListNode:
			for i := range n.Items {
				n.Items[i] = walk(n.Items[i], append(at, Step{Item: i}))
			}
		}
		return n
	}
	walk(d.Root, nil)
	return all
}

// newRange judges a range by itself; nil where it is none.
func (d *Document) newRange(n *Node, at []Step, single bool) *UncertainRange {
	const form = `{ low = ..., likely = ..., high = ... }`
	u := &UncertainRange{At: at, Path: d.PathOf(at), Line: n.Line, Low: n.Under["low"], Likely: n.Under["likely"], High: n.Under["high"]}
	before := len(d.Errs)
	if single {
		d.Fail(n.Line, u.Path, "a range", "one value: it says nothing of the site itself", "")
		return nil
	}
	misspelt := map[string]bool{}
	for _, key := range n.Keys {
		if !slices.Contains(rangeKeys, key) {
			mean := nearest.Name(key, rangeKeys)
			misspelt[mean] = true
			d.Fail(n.Under[key].Line, Join(u.Path, key), "an unknown key of a range", form, mean)
		}
	}
	for i, end := range []*Node{u.Low, u.Likely, u.High} {
		switch {
		case end == nil && misspelt[rangeKeys[i]]:
		case end == nil:
			d.Fail(n.Line, Join(u.Path, rangeKeys[i]), "nothing", "a value: a range is "+form, "")
		case end.HasRange():
			d.Fail(end.Line, Join(u.Path, rangeKeys[i]), "a range within a range", "a value", "")
		}
	}
	if len(d.Errs) > before || u.Likely.Kind == BrokenNode {
		return nil
	}
	return u
}

// HasRange reports whether the value is meant as a range, or one beneath it in
// tables is.
func (n *Node) HasRange() bool {
	if n.Kind == TableNode && n.isRange() {
		return true
	}
	for _, under := range n.Under {
		if under.HasRange() {
			return true
		}
	}
	return false
}

// ReadEnds reads the ends of the range that n is the likely value of, if it is of
// any. Where all three are numbers they must be in order.
//
// It reports whether nothing is wrong with them, so that the likely value can be
// judged beside others.
func (t *Table) ReadEnds(key string, n *Node, read func(end *Node) (float64, bool)) bool {
	u := n.Range
	if u == nil || t.Again {
		return true
	}
	already := len(t.Errs)
	u.used = true
	at := Join(t.Path, key)
	one := func(n *Node, name string) (float64, bool) {
		before := len(t.Errs)
		v, ok := read(n)
		for i := range t.Errs[before:] {
			e := &t.Errs[before+i]
			e.Key = Join(at, name) + strings.TrimPrefix(e.Key, at)
		}
		return v, ok
	}
	low, okLow := one(u.Low, "low")
	high, okHigh := one(u.High, "high")
	before := len(t.Errs)
	likely, ok := read(n)
	t.Errs = t.Errs[:before] // said by the caller, who reads it too
	if okLow && ok && low > likely {
		t.Fail(u.Low.Line, Join(at, "low"), unit.Quote(u.Low.Brief()), "at most the likely "+u.Likely.Brief(), "")
	}
	if ok && okHigh && likely > high {
		t.Fail(u.High.Line, Join(at, "high"), unit.Quote(u.High.Brief()), "at least the likely "+u.Likely.Brief(), "")
	}
	if okLow && okHigh && low == high {
		t.Fail(u.Line, at, "a range that begins where it ends", "the value by itself", "")
	}
	return len(t.Errs) == already
}

// StrayRanges reports the ranges that stand where no number and no time is read.
func (r *Reader) StrayRanges(all []*UncertainRange) {
	for _, u := range all {
		if u.asked && !u.used {
			// What is wrong with its likely value is no second mistake.
			r.Errs = slices.DeleteFunc(r.Errs, func(e Error) bool { return e.Line == u.Line && e.Key == u.Path })
			r.Fail(u.Line, u.Path, "a range", "one value: ranges stand for numbers and times", "")
		}
	}
}
