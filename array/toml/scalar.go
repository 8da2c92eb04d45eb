package toml

import (
	"strconv"
	"strings"
	"time"
)

// Integer reads a whole number.
func (t *Table) Integer(key string, dst *int64) {
	n := t.Ask(key)
	if n == nil {
		return
	}
	k := t.Key(key)
	value := int64(0)
	read := func(n *Node) (float64, bool) {
		i, ok := n.integer()
		if !ok || float64(i) < k.low || float64(i) > k.high {
			t.wrongNumber(k, n)
			return 0, false
		}
		value = i
		n.observe(ReadValue{Numeric: true, Whole: true, Value: float64(i), Low: k.low, High: k.high})
		return float64(i), true
	}
	sound := t.ReadEnds(key, n, read)
	if _, ok := read(n); ok && sound {
		*dst = value
		t.NoteValue(key, n.Text+n.Range.Ends())
	}
}

// Count reads a whole number into an int.
func (t *Table) Count(key string, dst *int) {
	wide := int64(*dst)
	t.Integer(key, &wide)
	*dst = int(wide)
}

// Number reads a number without a unit.
func (t *Table) Number(key string, dst *float64) {
	n := t.Ask(key)
	if n == nil {
		return
	}
	k := t.Key(key)
	read := func(n *Node) (float64, bool) {
		v, ok := n.Float()
		if !ok || v < k.low || v > k.high {
			t.wrongNumber(k, n)
			return 0, false
		}
		n.observe(ReadValue{Numeric: true, Value: v, Low: k.low, High: k.high})
		return v, true
	}
	sound := t.ReadEnds(key, n, read)
	if v, ok := read(n); ok && sound {
		*dst = v
		t.NoteValue(key, n.Text+n.Range.Ends())
	}
}

// wrongNumber reports a number, which perhaps has quotes that it should not.
func (t *Table) wrongNumber(k *Key, n *Node) {
	found, right := n.Shown(), k.Expected()
	_, err := strconv.ParseFloat(strings.TrimSpace(n.Text), 64)
	if inCell := t.Places != nil && err == nil; n.Kind == StringNode && !n.Typed && !inCell {
		found += ", a text"
		right += ", without quotes"
	}
	t.WrongAt(n, k.Name(), found, right, "")
}

// Bool reads true or false.
func (t *Table) Bool(key string, dst *bool) {
	n := t.Ask(key)
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

// Date reads a day, which dst gets as its beginning in UTC.
func (t *Table) Date(key string, dst *time.Time) {
	n := t.Ask(key)
	if n == nil {
		return
	}
	day, err := time.Parse(time.DateOnly, n.Text)
	if err == nil && n.Kind == DateNode {
		*dst = day
		t.NoteValue(key, n.Text)
		return
	}
	found, right := n.Shown(), t.Key(key).Expected()
	if err == nil && n.Kind == StringNode {
		found += ", a text"
		right += ", without quotes"
	}
	t.WrongAt(n, key, found, right, "")
}
