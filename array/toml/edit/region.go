package edit

import "bytes"

// span is some whole lines of the text; headed says that they begin with a header and what
// belongs to it, and are not keys alone.
type span struct {
	from, to int
	headed   bool
}

// spans returns the bytes that belong to a table or item: runs of whole lines with the
// comments of their headers.
func (t *Text) spans(n *Node) (all []span) {
	run := false // the line before belongs to it too
	for i, l := range t.lines {
		if !l.node.within(n) {
			run = false
			continue
		}
		switch last := len(all) - 1; {
		case run && (l.header || all[last].headed || all[last].to == l.from):
			all[last].to = l.to
		case l.header:
			all = append(all, span{t.blockAbove(l.from), l.to, true})
		default:
			all = append(all, span{l.from, l.to, false})
		}
		run = true
		if last := len(all) - 1; all[last].headed && (i+1 == len(t.lines) || !t.lines[i+1].node.within(n)) {
			all[last].to = t.blockBelow(l.to)
		}
	}
	return all
}

// blockAbove returns where the comment lines directly above a line begin; the line
// itself where they are the first of the file.
func (t *Text) blockAbove(at int) int {
	from := at
	for from > 0 {
		start := bytes.LastIndexByte(t.data[:from-1], '\n') + 1
		if line := bytes.TrimSpace(t.data[start:from]); len(line) == 0 || line[0] != '#' {
			return from
		}
		from = start
	}
	return at
}

// blockBelow returns where the comment lines directly below end, if a blank line or the
// end of the file follows them; else the place itself.
func (t *Text) blockBelow(at int) int {
	to := at
	for to < len(t.data) {
		next := t.lineAfter(to)
		line := bytes.TrimSpace(t.data[to:next])
		if len(line) == 0 {
			return to
		}
		if line[0] != '#' {
			return at
		}
		to = next
	}
	return to
}

// widened returns a span with the blank lines behind it, where there is a blank line or
// nothing in front of it, so that taking it away leaves no gap; at the end of the text
// with those in front.
func (t *Text) widened(s span) span {
	blank := func(from, to int) bool { return len(bytes.TrimSpace(t.data[from:to])) == 0 }
	before := bytes.LastIndexByte(t.data[:max(s.from-1, 0)], '\n') + 1
	if s.from > 0 && !blank(before, s.from) {
		return s
	}
	for s.to < len(t.data) && blank(s.to, t.lineAfter(s.to)) {
		s.to = t.lineAfter(s.to)
	}
	for s.to == len(t.data) && s.from > 0 {
		before := bytes.LastIndexByte(t.data[:s.from-1], '\n') + 1
		if !blank(before, s.from) {
			break
		}
		s.from = before
	}
	return s
}
