package site

import (
	"errors"
	"fmt"
	"strings"
	"sync"

	"arrayodds/array/unit"
)

// quantity is a sort of value that is written with its unit.
type quantity struct {
	named   string
	example string
	parse   func(string) (float64, error)
	bare    bool // a TOML number without quotes is read too
}

var (
	aSize    = quantity{"a size", "12 TB", unit.Size, false}
	aRate    = quantity{"a rate", "210 MB/s", unit.Rate, false}
	aBitRate = quantity{"a bit rate", "6 Mbit/s", unit.BitRate, false}
	aTime    = quantity{"a time", "48 h", unit.Hours, false}
	aPercent = quantity{"per cent", "1.5 %", unit.Percent, false}
	aShare   = quantity{"a share", "50 %", unit.Share, true}
	aPower   = quantity{"a power", "7 W", unit.Watts, false}
	anError  = quantity{"an error rate", "1 in 1e15 bits", unit.BitsPerError, false}
)

// between is the least and the greatest that make sense, as they would be
// written.
type between struct{ low, high string }

func (b between) said() string { return b.low + " to " + b.high }

// in is the least and the greatest as numbers.
func (b between) in(q quantity) (low, high float64) { return q.bound(b.low), q.bound(b.high) }

// right is what an error says of a value of this sort.
func (q quantity) right(in between) string {
	return fmt.Sprintf("%s in quotes, such as %q (%s)", q.named, q.example, in.said())
}

// quantity reads a value with its unit. It says whether dst was set.
func (t *table) quantity(key string, q quantity, or fallback, in between, dst *float64) bool {
	n := t.ask(key, or, q.right(in))
	if n == nil {
		return false
	}
	v, told, ok := t.measure(key, n, q, in)
	if ok {
		*dst = v
		t.tell(key, told)
	}
	return ok
}

// quantityOrNone reads a value with its unit, or "none", which is 0.
func (t *table) quantityOrNone(key string, q quantity, or fallback, in between, dst *float64) {
	n := t.ask(key, or, q.right(in)+`, or "none"`)
	if n == nil {
		return
	}
	if isNone(n) {
		*dst = 0
		t.tell(key, "none")
		return
	}
	if v, told, ok := t.measure(key, n, q, in); ok {
		*dst = v
		t.tell(key, told)
	}
}

func isNone(n *node) bool {
	return n.kind == text && strings.EqualFold(strings.TrimSpace(n.text), "none")
}

// measure reads a node as a quantity, and the ends of its range. told is how the
// value is listed: as it was written.
func (t *table) measure(key string, n *node, q quantity, in between) (v float64, told string, ok bool) {
	t.spanned(key, n, func(end *node) (float64, bool) {
		v, _, ok := t.measureOne(key, end, q, in)
		return v, ok
	})
	v, told, ok = t.measureOne(key, n, q, in)
	return v, told + n.span.said(), ok
}

// measureOne reads a node as a quantity and reports what is wrong with it.
func (t *table) measureOne(key string, n *node, q quantity, in between) (v float64, told string, ok bool) {
	written := strings.Join(strings.Fields(n.text), " ")
	bareNumber := n.kind == whole || n.kind == decimal
	switch {
	case n.kind == broken: // reported already
		return 0, "", false
	case n.kind == measured:
		v = n.value
	case q.bare && bareNumber:
		if v, ok = n.float(); !ok || v < 0 {
			t.wrongAt(n, key, n.shown(), fmt.Sprintf("%s, such as %q (%s)", q.named, q.example, in.said()), "")
			return 0, "", false
		}
	case bareNumber:
		t.wrongAt(n, key, n.shown()+", a number without a unit", q.right(in), "")
		return 0, "", false
	case n.kind != text:
		t.wrongAt(n, key, n.shown(), q.right(in), "")
		return 0, "", false
	default:
		var err error
		if v, err = q.parse(n.text); err != nil {
			var e *unit.Error
			errors.As(err, &e)
			t.wrongAt(n, key, e.Found, e.Right, e.Mean)
			return 0, "", false
		}
	}
	low, high := q.bound(in.low), q.bound(in.high)
	if v < low || v > high {
		t.wrongAt(n, key, n.shown(), in.said(), "")
		return 0, "", false
	}
	n.saw(seen{numeric: true, sort: q, value: v, low: low, high: high, written: written})
	return v, written, true
}

// bounds keeps the limits that were read, since they are the same every time.
var bounds sync.Map // limit → float64

type limit struct{ named, written string }

// bound is a limit written as a quantity. It is the program's own text.
func (q quantity) bound(written string) float64 {
	if v, there := bounds.Load(limit{q.named, written}); there {
		return v.(float64)
	}
	v, err := q.parse(written)
	if err != nil {
		panic(fmt.Sprintf("limit %q of %s: %v", written, q.named, err))
	}
	bounds.Store(limit{q.named, written}, v)
	return v
}
