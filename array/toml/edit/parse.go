package edit

import (
	"bytes"
	"errors"
	"sort"

	"arrayodds/array/pattern"

	"arrayodds/array/toml"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Text is a TOML text that was read with the place of every value. It does not change.
type Text struct {
	Root *Node
	// Cut is the line from which on the text cannot be read; 0: it was read to its end.
	Cut int

	mark   string // the byte order mark that it begins with; empty: none
	data   []byte // without that
	lines  []*line
	starts []int // offset at which each line of the text starts
	end    string
}

// line is a key with its value, or a header: its lines with what is behind it on the
// last of them.
type line struct {
	from, to int   // up to where the next line begins
	end      int   // of the value or header itself
	node     *Node // the value, or the table that is opened
	table    *Node // that a key stands in as a line; nil for headers
	header   bool
}

// maxMistakes is how many lines with mistakes are stepped over.
const maxMistakes = 50

var assignment = pattern.Of(`^[ \t]*([A-Za-z0-9_-]+)[ \t]*[=:][ \t]*([^\r\n]*)`)

// Parse reads a text. It is bounded as [toml.Parse] is, beyond which it is cut.
func Parse(data []byte) *Text {
	mark := ""
	if bytes.HasPrefix(data, []byte("\ufeff")) {
		mark, data = "\ufeff", data[len("\ufeff"):]
	}
	t := &Text{Root: newTable(byHeader, nil, ""), mark: mark, data: data, end: lineEnd(data), starts: []int{0}}
	for i, c := range data {
		if c == '\n' {
			t.starts = append(t.starts, i+1)
		}
	}
	limit := t.bounded()
	plain := data[:limit:limit]
	b := builder{Text: t, table: t.Root}
	for from, mistakes := 0, 0; ; mistakes++ {
		var p unstable.Parser
		p.Reset(plain[from:])
		b.parser, b.from = &p, from
		for p.NextExpression() {
			b.expression(p.Expression())
		}
		if p.Error() == nil {
			if limit < len(data) {
				t.Cut = max(t.lineAt(limit), 1)
			}
			return t
		}
		at := len(plain)
		var wrong *unstable.ParserError
		if errors.As(p.Error(), &wrong) && len(wrong.Highlight) > 0 {
			at = from + int(p.Range(wrong.Highlight).Offset)
		}
		if from = b.broken(at); from < 0 || mistakes == maxMistakes {
			t.Cut = t.lineAt(at)
			return t
		}
	}
}

// bounded returns the offset up to which the text is within the reader's bounds.
func (t *Text) bounded() int {
	d, err := toml.Parse(bytes.NewReader(t.data), "")
	if err != nil || len(t.data) > toml.MaxBytes {
		return 0
	}
	if !d.Cut {
		return len(t.data)
	}
	last := 1
	for _, e := range d.Errs {
		last = max(last, e.Line)
	}
	return t.starts[min(last, len(t.starts))-1]
}

// broken steps over the line of a mistake where its key begins on that line, and
// returns where the next begins; −1 where the rest is unreadable.
func (b *builder) broken(at int) int {
	start := b.starts[b.lineAt(at)-1]
	if last := len(b.lines) - 1; last >= 0 && b.lines[last].to > start {
		return -1
	}
	if b.firstAfter() != start {
		return -1
	}
	m := assignment().FindSubmatchIndex(b.data[start:])
	if m == nil {
		return -1
	}
	end := start + m[1]
	value := start + m[4]
	if i := bytes.Index(b.data[value:end], []byte(" #")); i >= 0 {
		end = value + i
	}
	for end > value && (b.data[end-1] == ' ' || b.data[end-1] == '\t') {
		end--
	}
	n := &Node{Kind: Broken, Line: b.lineAt(start), From: value, To: end, Text: string(b.data[value:end]), key: start + m[2], name: string(b.data[start+m[2] : start+m[3]]), in: b.table}
	b.put(b.table, n)
	to := b.lineAfter(end)
	n.lines = &line{from: start, to: to, end: end, node: n, table: b.table}
	b.lines = append(b.lines, n.lines)
	return to
}

// firstAfter returns the start of the first line behind those that were read that is
// neither blank nor a comment.
func (b *builder) firstAfter() int {
	at := 0
	if n := len(b.lines); n > 0 {
		at = b.lines[n-1].to
	}
	for at < len(b.data) {
		next := b.lineAfter(at)
		if line := bytes.TrimSpace(b.data[at:next]); len(line) > 0 && line[0] != '#' {
			break
		}
		at = next
	}
	return at
}

// lineAfter returns the offset of the line after that of an offset.
func (t *Text) lineAfter(at int) int {
	if i := bytes.IndexByte(t.data[at:], '\n'); i >= 0 {
		return at + i + 1
	}
	return len(t.data)
}

// lineAt returns the line, from 1, of an offset.
func (t *Text) lineAt(offset int) int {
	return sort.Search(len(t.starts), func(i int) bool { return t.starts[i] > offset })
}

// Bytes returns the text. It is not to be changed.
func (t *Text) Bytes() []byte {
	if t.mark == "" {
		return t.data
	}
	return append([]byte(t.mark), t.data...)
}

// Source returns the bytes of a value as they are written.
func (t *Text) Source(n *Node) string { return string(t.data[n.From:n.To]) }

// lineEnd returns how most lines of a text end.
func lineEnd(text []byte) string {
	if 2*bytes.Count(text, []byte("\r\n")) > bytes.Count(text, []byte("\n")) {
		return "\r\n"
	}
	return "\n"
}
