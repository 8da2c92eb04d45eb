package toml

import (
	"bytes"
	"errors"
	"fmt"
	"io"
	"sort"
	"strings"

	"github.com/pelletier/go-toml/v2/unstable"
)

// Document is the file as a tree with places. It is built from the library's
// parser and not by its decoder, because the decoder stops at the first error,
// forgets where values stood, and takes time that grows with the square of the
// number of keys.
type Document struct {
	Name string // what errors call the file
	Root *Node
	Errs Errors
	// Cut says that the text could not be read to its end, so that what seems to be
	// missing may stand further down.
	Cut bool
	// Places are what lines stand for where the values come from a spreadsheet, which
	// has cells: "schedule.csv, cell B2"; nil in a file of lines.
	Places []string
	// Unlabelled is what an item of a list at the top is called that has no label, by
	// the list's key: "Cameras" makes "Cameras 1". Else it is the key itself.
	Unlabelled map[string]string

	lines []int // offset at which each line starts
}

// Bounds of what is read at all: MaxBytes is the length of a file.
const (
	MaxBytes  = 4 << 20
	maxSyntax = 50 // mistakes of syntax, before the rest of the file is left unread
)

// Parse reads the whole text; name is what errors call it. What is wrong with it
// is in the Errs of the document; the error is of the reader r only.
func Parse(r io.Reader, name string) (*Document, error) {
	data, err := io.ReadAll(io.LimitReader(r, MaxBytes+1))
	if err != nil {
		return nil, err
	}
	d := &Document{Name: name, Root: newTable(byHeader, 1, 0)}
	if len(data) > MaxBytes {
		d.Fail(1, "", "a file of more than 4 MiB", "a site file of at most 4 MiB", "")
		d.Cut = true
		return d, nil
	}
	if bytes.HasPrefix(data, []byte("\ufeff")) {
		copy(data, "   ") // blanks, so that offsets stay
	}
	d.lines = []int{0}
	for i, c := range data {
		if c == '\n' {
			d.lines = append(d.lines, i+1)
		}
	}
	b := builder{Document: d, table: d.Root}
	for from, mistakes := 0, 0; ; {
		text := data[from:]
		beyond := measure(text)
		if beyond != nil {
			text = text[:beyond.from]
		}
		var p unstable.Parser
		p.Reset(text)
		b.parser, b.from = &p, from
		for b.values <= maxValues && p.NextExpression() {
			b.expression(p.Expression())
		}
		switch {
		case b.values > maxValues: // which is said; what they are is not judged
			d.Root, d.Cut = newTable(byHeader, 1, 0), true
			return d, nil
		case p.Error() != nil:
		case beyond != nil:
			d.Fail(d.lineAt(from+beyond.at), "", beyond.found, beyond.most, "")
			d.Cut = true
			return d, nil
		default:
			return d, nil
		}
		at := len(data) // where the parser gives no place, the end
		var wrong *unstable.ParserError
		if errors.As(p.Error(), &wrong) && len(wrong.Highlight) > 0 {
			at = from + int(p.Range(wrong.Highlight).Offset)
		}
		mistakes++
		next := b.mistake(data, at, p.Error())
		if next < 0 || mistakes == maxSyntax {
			d.Cut = true
			return d, nil
		}
		from = next
	}
}

// Fail reports one thing that is wrong; see [Error].
func (d *Document) Fail(line int, key, found, right, mean string) {
	d.Errs = append(d.Errs, Error{File: d.Name, Line: line, Key: key, Found: found, Right: right, Mean: mean})
}

// LineName returns a line as an error speaks of it: "line 3", or its cell.
func (d *Document) LineName(line int) string {
	if line >= 0 && line < len(d.Places) {
		_, cell, _ := strings.Cut(d.Places[line], ", ")
		return cell
	}
	return fmt.Sprintf("line %d", line)
}

// lineAt returns the line, from 1, of an offset.
func (d *Document) lineAt(offset int) int {
	return sort.Search(len(d.lines), func(i int) bool { return d.lines[i] > offset })
}
