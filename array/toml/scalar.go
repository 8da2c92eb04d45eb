package toml

import (
	"strings"

	"arrayodds/array/unit"
)

// Limits are the least and greatest number that makes sense.
type Limits struct {
	Low, High float64
}

// String returns the limits as an error says them.
func (l Limits) String() string {
	high := unit.Digits(l.High, 15)
	if l.High == 1<<63 { // what 2^63 − 1 is as a float64
		high = "2^63 − 1"
	}
	return unit.Digits(l.Low, 15) + " to " + high
}

// Integer reads a whole number.
func (t *Table) Integer(key string, or Fallback, in Limits, dst *int64) {
	right := "a whole number, " + in.String()
	n := t.Ask(key, or, right)
	if n == nil {
		return
	}
	read := func(n *Node) (float64, bool) {
		i, ok := n.integer()
		if !ok || float64(i) < in.Low || float64(i) > in.High {
			t.wrongNumber(key, n, right)
			return 0, false
		}
		*dst = i
		n.observe(ReadValue{Numeric: true, Whole: true, Value: float64(i), Low: in.Low, High: in.High})
		return float64(i), true
	}
	t.ReadEnds(key, n, read)
	if _, ok := read(n); ok {
		t.NoteValue(key, n.Text+n.Range.Ends())
	}
}

// Count reads a whole number into an int.
func (t *Table) Count(key string, or Fallback, in Limits, dst *int) {
	wide := int64(*dst)
	t.Integer(key, or, in, &wide)
	*dst = int(wide)
}

// Number reads a number without a unit.
func (t *Table) Number(key string, or Fallback, in Limits, dst *float64) {
	right := "a number, " + in.String()
	n := t.Ask(key, or, right)
	if n == nil {
		return
	}
	read := func(n *Node) (float64, bool) {
		v, ok := n.Float()
		if !ok || v < in.Low || v > in.High {
			t.wrongNumber(key, n, right)
			return 0, false
		}
		n.observe(ReadValue{Numeric: true, Value: v, Low: in.Low, High: in.High})
		return v, true
	}
	t.ReadEnds(key, n, read)
	if v, ok := read(n); ok {
		*dst = v
		t.NoteValue(key, n.Text+n.Range.Ends())
	}
}

// wrongNumber reports a number, which perhaps has quotes that it should not.
func (t *Table) wrongNumber(key string, n *Node, right string) {
	found := n.Shown()
	if n.Kind == StringNode && !n.Typed {
		found += ", a text"
		right += ", without quotes"
	}
	t.WrongAt(n, key, found, right, "")
}

// Bool reads true or false.
func (t *Table) Bool(key string, or Fallback, dst *bool) {
	n := t.Ask(key, or, "true or false")
	if n == nil {
		return
	}
	if n.Kind != BoolNode && !(n.Typed && (n.Text == "true" || n.Text == "false")) {
		mean := ""
		if s := strings.ToLower(strings.TrimSpace(n.Text)); s == "true" || s == "false" {
			mean = s
		}
		t.WrongAt(n, key, n.Shown(), "true or false, without quotes", mean)
		return
	}
	*dst = n.Text == "true"
	t.NoteValue(key, n.Text)
}
