package toml

import (
	"bytes"
	"fmt"
	"strings"

	"arrayodds/array/pattern"

	"arrayodds/array/unit"
)

// assignment is a line that gives a key its value, with the usual slips.
var assignment = pattern.Of(`^\s*([A-Za-z0-9_-]+)\s*([=:])\s*(.*?)\s*$`)

// bare is a value with a unit or of several words that lacks its quotes.
var bare = pattern.Of(`^[A-Za-z0-9.][^"'{}\[\]]*$`)

// mistake reports a mistake of syntax at an offset, and gives the offset from which to
// read on, or −1 where that would only breed errors that are none.
func (b *builder) mistake(data []byte, at int, err error) int {
	start, end := b.lineOf(data, at)
	began, ended := around(data[b.from:], at-b.from)
	began += b.from
	if began >= start { // its key is on the same line
		return b.wrongLine(data[start:end], start, end, err, true)
	}
	// The value goes over several lines.
	first, firstEnd := b.lineOf(data, began)
	m := assignment().FindSubmatch(data[first:firstEnd])
	if m == nil {
		return b.wrongLine(data[start:end], start, end, err, false)
	}
	key := string(m[1])
	over := len(bytes.TrimSpace(data[at:])) == 0
	if next := bytes.TrimLeft(data[start:end], " \t"); over || start+(end-start-len(next)) == at && (assignment().Match(next) || bytes.HasPrefix(next, []byte("["))) {
		// Another key begins, or the file ends, before this value does.
		line := b.lineAt(began)
		b.Fail(line, Join(b.header, key), unit.Quote(strings.TrimSpace(string(data[first:firstEnd]))), "the value with its closing bracket or quotes", "")
		b.broken(key, line, first)
		if over {
			return -1
		}
		return start
	}
	b.wrongLine(data[start:end], start, end, err, false)
	b.broken(key, b.lineAt(began), first)
	if ended < 0 {
		return -1
	}
	return b.from + ended
}

// lineOf returns where the line of an offset begins and where the next one does.
func (b *builder) lineOf(data []byte, at int) (start, end int) {
	line := b.lineAt(at)
	if line < len(b.lines) {
		return b.lines[line-1], b.lines[line]
	}
	return b.lines[line-1], len(data)
}

// broken puts what stands for a value that cannot be read under a key of the table.
func (b *builder) broken(key string, line, at int) {
	if _, there := b.table.Under[key]; !there {
		b.table.Add(key, &Node{Kind: BrokenNode, Line: line, Offset: at})
	}
}

// wrongLine reports a mistake within a line, and gives the offset from which to read
// on, or −1. own says that its key belongs to the table of the last header.
func (b *builder) wrongLine(text []byte, start, end int, err error, own bool) int {
	line := b.lineAt(start)
	written := strings.TrimRight(string(text), "\r\n")
	right := "TOML: " + strings.TrimPrefix(err.Error(), "toml: ")
	m := assignment().FindStringSubmatch(written)
	if m == nil {
		b.Fail(line, "", unit.Quote(strings.TrimSpace(written)), right, "")
		return -1
	}
	value, _, _ := strings.Cut(m[3], " #")
	value = strings.TrimSpace(value)
	if !own {
		value = strings.TrimSpace(strings.TrimSuffix(value, ","))
	}
	switch {
	case m[2] == ":":
		right = m[1] + " = …, with an equals sign"
	case value == "":
		right = m[1] + " = …, with a value"
	case bare().MatchString(value):
		right = fmt.Sprintf("in quotes: %s = %q", m[1], value)
	}
	key := ""
	if own {
		key = Join(b.header, m[1])
		b.broken(m[1], line, start)
	}
	b.Fail(line, key, unit.Quote(strings.TrimSpace(written)), right, "")
	return end
}
