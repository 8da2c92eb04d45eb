package toml

import (
	"errors"
	"fmt"
	"sync"

	"arrayodds/array/unit"
)

// Quantity is a sort of value that is written with its unit.
type Quantity struct {
	Name    string // with its article
	Example string
	Parse   func(string) (float64, error) // errors are of type [unit.Error]
	Bare    bool                          // a TOML number without quotes is read too
}

// The quantities, as package unit reads them.
var (
	Size      = Quantity{"a size", "12 TB", unit.Size, false}
	Rate      = Quantity{"a rate", "210 MB/s", unit.Rate, false}
	BitRate   = Quantity{"a bit rate", "6 Mbit/s", unit.BitRate, false}
	Time      = Quantity{"a time", "48 h", unit.Hours, false}
	Percent   = Quantity{"per cent", "1.5 %", unit.Percent, false}
	Share     = Quantity{"a share", "50 %", unit.Share, true}
	Power     = Quantity{"a power", "7 W", unit.Watts, false}
	ErrorRate = Quantity{"an error rate", "1 in 1e15 bits", unit.BitsPerError, false}
)

// Between is the least and the greatest that make sense, as they would be written.
type Between struct{ Low, High string }

// String returns the limits as an error says them.
func (b Between) String() string { return b.Low + " to " + b.High }

// In returns the least and the greatest as numbers.
func (b Between) In(q Quantity) (low, high float64) { return q.bound(b.Low), q.bound(b.High) }

// Right returns what an error says would be right of a value of this sort.
func (q Quantity) Right(in Between) string {
	return fmt.Sprintf("%s in quotes, such as %q (%s)", q.Name, q.Example, in)
}

// Quantity reads a value with its unit and reports whether dst was set.
func (t *Table) Quantity(key string, q Quantity, or Fallback, in Between, dst *float64) bool {
	n := t.Ask(key, or, q.Right(in))
	if n == nil {
		return false
	}
	v, noted, ok := t.Measure(key, n, q, in)
	if ok {
		*dst = v
		t.NoteValue(key, noted)
	}
	return ok
}

// QuantityOrNone reads a value with its unit, or "none", which is 0.
func (t *Table) QuantityOrNone(key string, q Quantity, or Fallback, in Between, dst *float64) {
	n := t.Ask(key, or, q.Right(in)+`, or "none"`)
	if n == nil {
		return
	}
	if n.IsNone() {
		*dst = 0
		t.NoteValue(key, "none")
		return
	}
	if v, noted, ok := t.Measure(key, n, q, in); ok {
		*dst = v
		t.NoteValue(key, noted)
	}
}

// Measure reads a node as a quantity, and the ends of its range. noted is the value
// as it was written.
func (t *Table) Measure(key string, n *Node, q Quantity, in Between) (v float64, noted string, ok bool) {
	t.ReadEnds(key, n, func(end *Node) (float64, bool) {
		v, _, ok := t.MeasureOne(key, end, q, in)
		return v, ok
	})
	v, noted, ok = t.MeasureOne(key, n, q, in)
	return v, noted + n.Range.Ends(), ok
}

// MeasureOne reads a node as a quantity and reports what is wrong with it.
func (t *Table) MeasureOne(key string, n *Node, q Quantity, in Between) (v float64, noted string, ok bool) {
	written := spaced(n.Text)
	bareNumber := n.Kind == IntegerNode || n.Kind == FloatNode
	switch {
	case n.Kind == BrokenNode: // reported already
		return 0, "", false
	case n.Kind == MeasuredNode:
		v = n.Value
	case q.Bare && bareNumber:
		if v, ok = n.Float(); !ok || v < 0 {
			t.WrongAt(n, key, n.Shown(), fmt.Sprintf("%s, such as %q (%s)", q.Name, q.Example, in), "")
			return 0, "", false
		}
	case bareNumber:
		t.WrongAt(n, key, n.Shown()+", a number without a unit", q.Right(in), "")
		return 0, "", false
	case n.Kind != StringNode:
		t.WrongAt(n, key, n.Shown(), q.Right(in), "")
		return 0, "", false
	default:
		var err error
		if v, err = q.Parse(n.Text); err != nil {
			var e *unit.Error
			errors.As(err, &e)
			t.WrongAt(n, key, e.Found, e.Right, e.Mean)
			return 0, "", false
		}
	}
	low, high := in.In(q)
	if v < low || v > high {
		t.WrongAt(n, key, n.Shown(), in.String(), "")
		return 0, "", false
	}
	n.observe(ReadValue{Numeric: true, Quantity: q, Value: v, Low: low, High: high, Written: written})
	return v, written, true
}

// bounds keeps the limits that were read, since they are the same every time.
var bounds sync.Map // limit → float64

type limit struct{ quantity, written string }

// bound is a limit written as a quantity. It is the program's own text.
func (q Quantity) bound(written string) float64 {
	if v, there := bounds.Load(limit{q.Name, written}); there {
		return v.(float64)
	}
	v, err := q.Parse(written)
	if err != nil {
		panic(fmt.Sprintf("limit %q of %s: %v", written, q.Name, err))
	}
	bounds.Store(limit{q.Name, written}, v)
	return v
}
