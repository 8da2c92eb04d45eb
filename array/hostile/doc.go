// Package hostile makes inputs that are meant to take a reader's time and memory, or
// to lead it astray: deep, long, many, packed a thousandfold, of the wrong kind. Each
// is made at any size, so that the same ones measure the program and seed the fuzz
// targets of the readers. Tests alone use it.
package hostile

import "strings"

// Input is one kind of hostile input.
type Input struct {
	Name string
	File string // "site.toml", "schedule.xlsx", "record.csv.gz"
	// Make returns the input at a size: so many of what it has many of, or so deep.
	Make func(n int) []byte
	Size int  // at which it does the most harm
	Read bool // it is read at that size; else it is refused
}

// Seeds returns the inputs whose file has this ending, at a size that a fuzz target
// can work with.
func Seeds(all []Input, ending string) (seeds [][]byte) {
	const small = 40
	for _, in := range all {
		if strings.HasSuffix(in.File, ending) {
			seeds = append(seeds, in.Make(small))
		}
	}
	return seeds
}

// text makes an input of a beginning, what is repeated, and an end.
func text(before, again, after string) func(int) []byte {
	return func(n int) []byte { return []byte(before + strings.Repeat(again, n) + after) }
}

// numbered makes one in which each of what is repeated has its number.
func numbered(before string, again func(i int) string, after string) func(int) []byte {
	return func(n int) []byte {
		var b strings.Builder
		b.WriteString(before)
		for i := range n {
			b.WriteString(again(i))
		}
		b.WriteString(after)
		return []byte(b.String())
	}
}
