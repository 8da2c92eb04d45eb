// Package flags reads what the flags of a question ask, and says in one wording what is
// wrong with it, whether they stand on a command line or come from a page.
//
// A [Reader] is given the values and whom to tell of errors. Its methods read one flag or
// all of a question; what is wrong is noted and the reading goes on, so that everything is
// said at once. A site file that could not be read is nil, and nothing is said that hangs
// on it.
package flags

import (
	"math"
	"strconv"
	"strings"

	"arrayodds/array/site"
	"arrayodds/array/unit"
)

// Values are the values of flags by their names.
type Values interface {
	IsSet(name string) bool
	String(name string) string
	Bool(name string) bool
	StringSlice(name string) []string
}

// Reader reads flags.
type Reader struct {
	Values
	// Wrong is told each thing that is wrong; Fine reports whether it was told nothing.
	Wrong func(format string, args ...any)
	Fine  func() bool
}

// WholeNumber returns the value of a flag, a whole number from low to high, or
// otherwise where it is not given. "2e7" and "20 000 000" are the same.
func WholeNumber[N int | int64](r Reader, flag string, low, high float64, otherwise N) N {
	if !r.IsSet(flag) {
		return otherwise
	}
	text := r.String(flag)
	x, err := strconv.ParseFloat(strings.ReplaceAll(text, " ", ""), 64)
	if err != nil || x != math.Trunc(x) || x < low || x > high {
		r.Wrong("--%s: found %s; right would be a whole number from %.0f to %.0f", flag, unit.Quote(text), low, high)
		return otherwise
	}
	return N(x)
}

// fileOf returns the site of a file, or none.
func fileOf(f *site.File) site.File {
	if f == nil {
		return site.File{}
	}
	return *f
}
