package site

import (
	"strconv"
	"strings"

	"arrayodds/array/unit"
)

// kind is what a value of the file is.
type kind int

const (
	broken   kind = iota // its line has a mistake that is reported already
	text                 // a string
	whole                // an integer
	decimal              // a number with a point or an exponent
	truth                // true or false
	date                 // a date or a time of day
	tables               // a table
	list                 // an array
	measured             // a number in the unit computed in, which no file can hold: a setting's
)

// named is the kind with its article, as an error says it.
func (k kind) named() string {
	return [...]string{"a mistake", "a text", "a number", "a number", "true or false", "a date", "a table", "a list", "a number"}[k]
}

// node is a value of the file with its place.
type node struct {
	kind   kind
	line   int // of its key; of an item of a list, its own
	offset int // in bytes from the start of the file
	text   string
	items  []*node
	keys   []string // in the order of the file
	under  map[string]*node
	made   made

	value float64 // of a measured one
	// typed: the text comes from a command line, where no quotes tell texts from
	// numbers.
	typed bool
	span  *span // the range whose likely value this is; nil: none
	seen  *seen // where what the reader makes of it is put down; nil: nowhere
}

// made is how a table or list came to be, which decides what may be added.
type made int

const (
	byValue  made = iota // { } or [ ]: closed
	byPath               // the a of [a.b]
	byHeader             // [a]
	byRepeat             // [[a]]
	byDots               // the a of a.b = 1
)

func newTable(made made, line, offset int) *node {
	return &node{kind: tables, made: made, line: line, offset: offset, under: map[string]*node{}}
}

// add puts a value under a key that is not yet there.
func (n *node) add(key string, value *node) {
	n.keys = append(n.keys, key)
	n.under[key] = value
}

// shown is the value as an error repeats it.
func (n *node) shown() string {
	switch n.kind {
	case text:
		return unit.Quote(n.text)
	case tables, list, broken:
		return n.kind.named()
	}
	return strings.Trim(unit.Quote(n.text), `"`)
}

// float is a number's value; false where it is none or does not fit.
func (n *node) float() (float64, bool) {
	s := strings.ReplaceAll(n.text, "_", "")
	switch n.kind {
	case whole:
		i, err := strconv.ParseInt(s, 0, 64)
		return float64(i), err == nil
	case decimal:
		f, err := strconv.ParseFloat(s, 64)
		return f, err == nil && f-f == 0 // neither infinite nor NaN
	case text:
		f, err := strconv.ParseFloat(strings.TrimSpace(s), 64)
		return f, n.typed && err == nil && f-f == 0
	case measured:
		return n.value, true
	}
	return 0, false
}

// integer is a whole number's value, a decimal without a fraction included.
func (n *node) integer() (int64, bool) {
	if n.kind == whole {
		i, err := strconv.ParseInt(strings.ReplaceAll(n.text, "_", ""), 0, 64)
		return i, err == nil
	}
	f, ok := n.float()
	if !ok || f != float64(int64(f)) || f > 1<<53 || f < -1<<53 {
		return 0, false
	}
	return int64(f), true
}
