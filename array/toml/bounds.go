package toml

import (
	"bytes"
	"fmt"
)

// Bounds of a file, beyond which the rest of it is left unread. A site at the bounds
// of its own keys has some 30 000 values.
const (
	maxDepth  = 32      // tables and lists one within the other, in one value
	maxMarks  = 200_000 // points, commas, brackets and equals signs of one value and its key
	maxValues = 50_000  // values of a file, tables and lists among them
)

// over is a bound that the text goes beyond.
type over struct {
	at          int // offset where it does
	from        int // offset of the line on which the key or header there begins
	found, most string
}

// telling are the characters that [measure] looks at: few, since a file is measured
// again from every mistake on.
var telling = func() (is [256]bool) {
	for _, c := range "\n#\"'[]{},.=" {
		is[c] = true
	}
	return is
}()

// measure finds the first key with its value that is nested too deep or too long for
// the parser, which builds all of it before any of it can be looked at; nil where
// there is none. It looks at marks alone: where the text is no TOML the parser stops
// at that.
func measure(text []byte) (beyond *over) {
	marks, from := 0, 0
	walk(text, func(at, depth, start int) bool {
		if start != from {
			marks, from = 0, start
		}
		switch marks++; {
		case depth > maxDepth:
			beyond = &over{at, start, fmt.Sprintf("a value nested more than %d deep", maxDepth), fmt.Sprintf("at most %d tables and lists one within the other", maxDepth)}
		case marks > maxMarks && text[at] != '\n':
			beyond = &over{at, start, fmt.Sprintf("a value with more than %d points, commas, brackets and equals signs", maxMarks), "a value of fewer parts"}
		}
		return beyond == nil
	})
	return beyond
}

// around returns the offsets of the line on which the key or header begins that an
// offset stands in, and of the line after its value; -1 where that has no end.
func around(text []byte, at int) (start, end int) {
	end = -1
	walk(text, func(mark, depth, from int) bool {
		if mark < at {
			start = from
			if text[mark] == '\n' && depth == 0 {
				start = mark + 1
			}
			return true
		}
		if text[mark] == '\n' && depth == 0 {
			end = mark + 1
		}
		return end < 0
	})
	return start, end
}

// walk goes through the marks of a text outside of strings and comments, the ends of
// lines among them. on is told the depth behind each and where the line begins on
// which its key does, and whether to go on is its answer.
func walk(text []byte, on func(at, depth, start int) bool) {
	depth, start := 0, 0
	for i := 0; i < len(text); i++ {
		c := text[i]
		if !telling[c] {
			continue
		}
		switch c {
		case '#':
			end := bytes.IndexByte(text[i:], '\n')
			if end < 0 {
				return
			}
			i += end - 1 // the line end is looked at
			continue
		case '"', '\'':
			if i = pastString(text, i); i < 0 {
				return
			}
			continue
		case '[', '{':
			depth++
		case ']', '}':
			depth = max(depth-1, 0)
		}
		if !on(i, depth, start) {
			return
		}
		if c == '\n' && depth == 0 {
			start = i + 1
		}
	}
}

// pastString returns the offset of the last character of the string that begins at
// an offset: its closing quote or, of one that is not closed, the last of the line;
// -1 where it goes to the end of the text.
func pastString(text []byte, at int) int {
	quote := text[at : at+1]
	long := bytes.Repeat(quote, 3)
	if bytes.HasPrefix(text[at:], long) {
		for i := at + 3; i < len(text); i++ {
			switch {
			case text[i] == '\\' && quote[0] == '"':
				i++
			case bytes.HasPrefix(text[i:], long):
				for i += 2; i+1 < len(text) && text[i+1] == quote[0]; i++ { // quotes may stand before the closing ones
				}
				return i
			}
		}
		return -1
	}
	for i := at + 1; i < len(text); i++ {
		switch c := text[i]; {
		case c == '\\' && quote[0] == '"' && i+1 < len(text) && text[i+1] != '\n':
			i++
		case c == '\n':
			return i - 1
		case c == quote[0]:
			return i
		}
	}
	return -1
}
