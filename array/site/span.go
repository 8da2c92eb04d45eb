package site

import (
	"fmt"
	"slices"
	"strings"

	"arrayodds/array/unit"
)

// maxSpans bounds the ranges of a file, since both ends of each are tried.
const maxSpans = 100

// span is a range, { low, likely, high }, that stands in place of a value. The
// node that the reader meets there is the likely one, which points here.
type span struct {
	at                []step
	path              string // for people
	line              int
	low, likely, high *node
	asked, used       bool // its key was asked for; and by one that reads numbers or times
	ends              [2]reached
}

var spanKeys = []string{"low", "likely", "high"}

// said is how a range is listed behind its likely value; nothing where there is
// none.
func (s *span) said() string {
	if s == nil {
		return ""
	}
	return fmt.Sprintf(" (%s to %s)", s.low.brief(), s.high.brief())
}

// brief is a value in a few words.
func (n *node) brief() string {
	var all []string
	switch n.kind {
	case list:
		for _, item := range n.items {
			all = append(all, item.brief())
		}
		return strings.Join(all, ", ")
	case tables:
	default:
		return spaced(n.text)
	}
	for _, key := range n.keys {
		all = append(all, strings.TrimSpace(key+" "+n.under[key].brief()))
	}
	return strings.Join(all, ", ")
}

// isSpan says whether a table is meant as a range.
func (n *node) isSpan() bool {
	found := 0
	for _, key := range spanKeys {
		if n.under[key] != nil {
			found++
		}
	}
	return found > 1 || found == 1 && n.made == byValue
}

// findSpans puts the likely value of every range in its place.
func (d *document) findSpans() (all []*span) {
	var walk func(n *node, at []step) *node
	walk = func(n *node, at []step) *node {
		at = at[:len(at):len(at)]
		switch {
		case n.kind == tables && len(at) > 0 && n.isSpan():
			s := d.span(n, at)
			if s == nil {
				return &node{kind: broken, line: n.line, offset: n.offset}
			}
			all = append(all, s)
			if len(all) == maxSpans+1 {
				d.fail(n.line, s.path, fmt.Sprintf("more than %d ranges", maxSpans), fmt.Sprintf("at most %d in a file", maxSpans), "")
			}
			likely := *s.likely
			likely.offset, likely.span = n.offset, s
			return &likely
		case n.kind == tables:
			for _, key := range n.keys {
				n.under[key] = walk(n.under[key], append(at, step{key: key}))
			}
		case n.kind == list:
			for i := range n.items {
				n.items[i] = walk(n.items[i], append(at, step{item: i}))
			}
		}
		return n
	}
	walk(d.root, nil)
	return all
}

// span judges a range by itself; nil where it is none.
func (d *document) span(n *node, at []step) *span {
	const form = `{ low = ..., likely = ..., high = ... }`
	s := &span{at: at, path: d.pathOf(at), line: n.line, low: n.under["low"], likely: n.under["likely"], high: n.under["high"]}
	before := len(d.errs)
	if at[0].key == "run" || at[len(at)-1].key == "label" || len(at) == 1 && at[0].key == "name" {
		d.fail(n.line, s.path, "a range", "one value: it says nothing of the site itself", "")
	}
	misspelt := map[string]bool{}
	for _, key := range n.keys {
		if !slices.Contains(spanKeys, key) {
			mean := nearest(key, spanKeys)
			misspelt[mean] = true
			d.fail(n.under[key].line, path(s.path, key), "an unknown key of a range", form, mean)
		}
	}
	for i, end := range []*node{s.low, s.likely, s.high} {
		switch {
		case end == nil && misspelt[spanKeys[i]]:
		case end == nil:
			d.fail(n.line, path(s.path, spanKeys[i]), "nothing", "a value: a range is "+form, "")
		case end.hasSpan():
			d.fail(end.line, path(s.path, spanKeys[i]), "a range within a range", "a value", "")
		}
	}
	if len(d.errs) > before || s.likely.kind == broken {
		return nil
	}
	return s
}

func (n *node) hasSpan() bool {
	if n.kind == tables && n.isSpan() {
		return true
	}
	for _, under := range n.under {
		if under.hasSpan() {
			return true
		}
	}
	return false
}

// spanned reads the ends of the range that n is the likely value of, if it is of
// any. Where all three are numbers they must be in order.
func (t *table) spanned(key string, n *node, read func(end *node) (float64, bool)) {
	s := n.span
	if s == nil || t.again {
		return
	}
	s.used = true
	at := path(t.path, key)
	one := func(n *node, name string) (float64, bool) {
		before := len(t.errs)
		v, ok := read(n)
		for i := range t.errs[before:] {
			e := &t.errs[before+i]
			e.Key = path(at, name) + strings.TrimPrefix(e.Key, at)
		}
		return v, ok
	}
	low, okLow := one(s.low, "low")
	high, okHigh := one(s.high, "high")
	before := len(t.errs)
	likely, ok := read(n)
	t.errs = t.errs[:before] // said by the caller, who reads it too
	if okLow && ok && low > likely {
		t.fail(s.low.line, path(at, "low"), unit.Quote(s.low.brief()), "at most the likely "+s.likely.brief(), "")
	}
	if ok && okHigh && likely > high {
		t.fail(s.high.line, path(at, "high"), unit.Quote(s.high.brief()), "at least the likely "+s.likely.brief(), "")
	}
	if okLow && okHigh && low == high {
		t.fail(s.line, at, "a range that begins where it ends", "the value by itself", "")
	}
}

// strays reports the ranges that stand where no number and no time is read.
func (r *reader) strays(all []*span) {
	for _, s := range all {
		if s.asked && !s.used {
			r.fail(s.line, s.path, "a range", "one value: ranges stand for numbers and times", "")
		}
	}
}
