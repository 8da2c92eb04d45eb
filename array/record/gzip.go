package record

import (
	"bufio"
	"bytes"
	"compress/gzip"
	"fmt"
	"io"
	"iter"
)

// parts is a file packed by gzip. It may be of several packed parts one behind the
// other, as cat makes them: a part that begins with headings is a text by itself, any
// other goes on with the one before.
type parts struct {
	name     string
	packed   *counted
	unpacker *gzip.Reader
	in       *bufio.Reader // of the part
	unpacked uint64        // bytes, of all parts
	count    uint64        // of parts
	text     *part         // that was opened last
	done     bool
	err      error // of what follows the part
}

// counted counts what is read of it, by its bytes, since a packed part ends anywhere.
type counted struct {
	*bufio.Reader
	read uint64
}

func (c *counted) Read(p []byte) (int, error) {
	n, err := c.Reader.Read(p)
	c.read += uint64(n)
	return n, err
}

func (c *counted) ReadByte() (byte, error) {
	b, err := c.Reader.ReadByte()
	if err == nil {
		c.read++
	}
	return b, err
}

// Bounds of how many parts there may be: some, and one more for so many packed bytes.
const (
	partsFree = 1_000
	partBytes = 1 << 10
)

// headingsWithin is how many bytes of a part are looked at for headings.
const headingsWithin = 1 << 16

// gzipped lists the texts of a packed file.
func gzipped(packed *bufio.Reader, name string) iter.Seq[member] {
	p := &parts{name: name, packed: &counted{Reader: packed}}
	return func(yield func(member) bool) {
		for number := 1; !p.done; number++ {
			of := name
			if number > 1 {
				of = fmt.Sprintf("%s/part %d", name, number)
			}
			if !yield(member{of, p.open, 0}) || p.text == nil || !p.text.ended {
				return // what is left of a text that nobody wants is not looked through
			}
		}
	}
}

// open returns the text that is next.
func (p *parts) open() (io.ReadCloser, error) {
	if p.unpacker == nil {
		var err error
		if p.unpacker, err = gzip.NewReader(p.packed); err != nil {
			p.done = true
			return nil, err
		}
		p.begin()
	}
	p.text = &part{p, false}
	return p.text, nil
}

// begin gets ready to read a part that the unpacker stands before.
func (p *parts) begin() {
	p.unpacker.Multistream(false)
	if p.in == nil {
		p.in = bufio.NewReaderSize(p.unpacker, headingsWithin)
		return
	}
	p.in.Reset(p.unpacker)
}

// next goes to the next part and reports whether the text goes on in it.
func (p *parts) next() bool {
	switch err := p.unpacker.Reset(p.packed); {
	case err == io.EOF:
		p.done = true
		return false
	case err != nil:
		p.done, p.err = true, err
		return false
	}
	if p.count++; p.count > partsFree+p.packed.read/partBytes {
		p.done = true
		p.err = Errors{{File: p.name, Found: fmt.Sprintf("%d packed parts one behind the other, and little in them", p.count), Right: "a record packed in one"}}
		return false
	}
	p.begin()
	first, err := p.in.Peek(headingsWithin)
	if err != nil && err != io.EOF && len(first) == 0 {
		return true // reading on says so
	}
	s, err := open("", bufio.NewReaderSize(bytes.NewReader(first), len(first)+1), new(Errors))
	return s == nil || err != nil
}

// part is one text of the file.
type part struct {
	*parts
	ended bool
}

func (p *part) Read(b []byte) (int, error) {
	for !p.ended {
		n, err := p.in.Read(b)
		p.unpacked += uint64(n)
		if bomb(p.unpacked, p.packed.read) {
			p.done = true
			return 0, Errors{unpacksToo(p.name)}
		}
		switch {
		case err != nil && err != io.EOF:
			p.done = true
			return n, err
		case n > 0: // where that is all of the part, the next reading says so
			return n, nil
		}
		p.ended = err != nil && !p.next()
	}
	if p.err != nil {
		return 0, p.err
	}
	return 0, io.EOF
}

// Close does nothing: the file is closed by who opened it.
func (p *part) Close() error { return nil }
