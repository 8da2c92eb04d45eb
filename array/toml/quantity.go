package toml

import (
	"errors"
	"fmt"

	"arrayodds/array/unit"
)

// Quantity is a sort of value that is written with its unit.
type Quantity struct {
	Name    string   // with its article
	Example string   //
	Units   []string // the usual ones, the smallest first; more are read
	Bare    bool     // a TOML number without quotes is read too

	// Parse reads a value; its errors are of type [unit.Error].
	Parse func(string) (float64, error) `json:"-"`
}

// The quantities, as package unit reads them.
var (
	Size         = Quantity{Name: "a size", Example: "12 TB", Units: []string{"GB", "TB", "GiB", "TiB"}, Parse: unit.Size}
	Rate         = Quantity{Name: "a rate", Example: "210 MB/s", Units: []string{"MB/s", "GB/s", "MiB/s"}, Parse: unit.Rate}
	Workload     = Quantity{Name: "a yearly workload", Example: "550 TB/y", Units: []string{"GB/y", "TB/y", "PB/y"}, Parse: unit.Workload}
	BitRate      = Quantity{Name: "a bit rate", Example: "6 Mbit/s", Units: []string{"kbit/s", "Mbit/s", "Gbit/s"}, Parse: unit.BitRate}
	Hours        = Quantity{Name: "a time", Example: "48 h", Units: []string{"s", "min", "h", "d", "w", "y"}, Parse: unit.Hours}
	Percent      = Quantity{Name: "per cent", Example: "1.5 %", Units: []string{"%"}, Parse: unit.Percent}
	Share        = Quantity{Name: "a share", Example: "50 %", Units: []string{"%"}, Bare: true, Parse: unit.Share}
	Odds         = Quantity{Name: "a chance", Example: "1 in 10 000", Units: []string{"%"}, Bare: true, Parse: unit.Odds}
	Watts        = Quantity{Name: "a power", Example: "7 W", Units: []string{"W", "kW"}, Parse: unit.Watts}
	Mass         = Quantity{Name: "a weight", Example: "14 kg", Units: []string{"g", "kg"}, Parse: unit.Mass}
	BitsPerError = Quantity{Name: "an error rate", Example: "1 in 1e15 bits", Units: []string{"bits"}, Parse: unit.BitsPerError}
)

// Quantity reads a value with its unit, or "none", which is 0, where the key takes
// that. It reports whether dst was set.
func (t *Table) Quantity(key string, dst *float64) bool {
	n := t.Ask(key)
	if n == nil {
		return false
	}
	if t.Key(key).None && n.IsNone() {
		*dst = 0
		t.NoteValue(key, "none")
		return true
	}
	v, noted, ok := t.Measure(key, n)
	if ok {
		*dst = v
		t.NoteValue(key, noted)
	}
	return ok
}

// Measure reads a node as the quantity of a key, and the ends of its range. noted is
// the value as it was written.
func (t *Table) Measure(key string, n *Node) (v float64, noted string, ok bool) {
	sound := t.ReadEnds(key, n, func(end *Node) (float64, bool) {
		v, _, ok := t.MeasureOne(key, end)
		return v, ok
	})
	v, noted, ok = t.MeasureOne(key, n)
	return v, noted + n.Range.Ends(), ok && sound
}

// MeasureOne reads a node as the quantity of a key and reports what is wrong with
// it.
func (t *Table) MeasureOne(key string, n *Node) (v float64, noted string, ok bool) {
	k := t.Key(key)
	q := k.Quantity
	written := spaced(n.Text)
	bareNumber := n.Kind == IntegerNode || n.Kind == FloatNode
	switch {
	case n.Kind == BrokenNode: // reported already
		return 0, "", false
	case n.Kind == MeasuredNode:
		v = n.Value
	case q.Bare && bareNumber:
		if v, ok = n.Float(); !ok || v < 0 {
			t.WrongAt(n, key, n.Shown(), fmt.Sprintf("%s, such as %q (%s)", q.Name, q.Example, k.Limits()), "")
			return 0, "", false
		}
	case bareNumber:
		t.WrongAt(n, key, n.Shown()+", a number without a unit", k.quoted(), "")
		return 0, "", false
	case n.Kind != StringNode:
		t.WrongAt(n, key, n.Shown(), k.quoted(), "")
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
	if v < k.low || v > k.high {
		t.WrongAt(n, key, n.Shown(), k.Limits(), "")
		return 0, "", false
	}
	n.observe(ReadValue{Numeric: true, Quantity: q, Value: v, Low: k.low, High: k.high, Written: written})
	return v, written, true
}
