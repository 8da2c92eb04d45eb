package site

import (
	"fmt"
	"strings"

	"arrayodds/array/unit"
)

// limits are the least and greatest number that makes sense.
type limits struct {
	low, high float64
}

// said is the limits as an error says them.
func (l limits) said() string {
	high := unit.Digits(l.high, 15)
	if l.high == 1<<63 { // what 2^63 − 1 is as a float64
		high = "2^63 − 1"
	}
	return unit.Digits(l.low, 15) + " to " + high
}

// integer reads a whole number.
func (t *table) integer(key string, or fallback, in limits, dst *int64) {
	right := "a whole number, " + in.said()
	n := t.ask(key, or, right)
	if n == nil {
		return
	}
	read := func(n *node) (float64, bool) {
		i, ok := n.integer()
		if !ok || float64(i) < in.low || float64(i) > in.high {
			t.wrongNumber(key, n, right)
			return 0, false
		}
		*dst = i
		n.saw(seen{numeric: true, whole: true, value: float64(i), low: in.low, high: in.high})
		return float64(i), true
	}
	t.spanned(key, n, read)
	if _, ok := read(n); ok {
		t.tell(key, n.text+n.span.said())
	}
}

// count reads a whole number into an int.
func (t *table) count(key string, or fallback, in limits, dst *int) {
	wide := int64(*dst)
	t.integer(key, or, in, &wide)
	*dst = int(wide)
}

// number reads a number without a unit.
func (t *table) number(key string, or fallback, in limits, dst *float64) {
	right := "a number, " + in.said()
	n := t.ask(key, or, right)
	if n == nil {
		return
	}
	read := func(n *node) (float64, bool) {
		v, ok := n.float()
		if !ok || v < in.low || v > in.high {
			t.wrongNumber(key, n, right)
			return 0, false
		}
		n.saw(seen{numeric: true, value: v, low: in.low, high: in.high})
		return v, true
	}
	t.spanned(key, n, read)
	if v, ok := read(n); ok {
		*dst = v
		t.tell(key, n.text+n.span.said())
	}
}

// wrongNumber reports a number, which perhaps has quotes that it should not.
func (t *table) wrongNumber(key string, n *node, right string) {
	found := n.shown()
	if n.kind == text && !n.typed {
		found += ", a text"
		right += ", without quotes"
	}
	t.wrongAt(n, key, found, right, "")
}

// yes reads true or false.
func (t *table) yes(key string, or fallback, dst *bool) {
	n := t.ask(key, or, "true or false")
	if n == nil {
		return
	}
	if n.kind != truth && !(n.typed && (n.text == "true" || n.text == "false")) {
		mean := ""
		if s := strings.ToLower(strings.TrimSpace(n.text)); s == "true" || s == "false" {
			mean = s
		}
		t.wrongAt(n, key, n.shown(), "true or false, without quotes", mean)
		return
	}
	*dst = n.text == "true"
	t.tell(key, n.text)
}

// choose reads one of two words; dst is whether it is the second.
func (t *table) choose(key string, or fallback, first, second string, dst *bool) {
	right := fmt.Sprintf("%q or %q", first, second)
	n := t.ask(key, or, right)
	if n == nil {
		return
	}
	word := strings.ToLower(strings.TrimSpace(n.text))
	if n.kind != text || word != first && word != second {
		t.wrongAt(n, key, n.shown(), right, nearest(word, []string{first, second}))
		return
	}
	*dst = word == second
	t.tell(key, word)
}

// name reads a text of one line.
func (t *table) name(key string, or fallback, right string, dst *string) bool {
	n := t.ask(key, or, right)
	if n == nil {
		return false
	}
	s, ok := t.words(key, n)
	if ok {
		*dst = s
		t.tell(key, s)
	}
	return ok
}
