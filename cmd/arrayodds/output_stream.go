package main

import (
	"io"
	"os"

	"golang.org/x/term"
)

// checkedWriter is a stream that remembers the first error of writing to it.
type checkedWriter struct {
	w   io.Writer
	err error
}

// Write writes to the stream.
func (c *checkedWriter) Write(b []byte) (int, error) {
	n, err := c.w.Write(b)
	if c.err == nil {
		c.err = err
	}
	return n, err
}

// checked returns the program with streams that remember whether they could be
// written to.
func (p program) checked() program {
	p.out, p.err = &checkedWriter{w: p.out}, &checkedWriter{w: p.err}
	return p
}

// fileOf returns the file that a stream of the program is.
func fileOf(w io.Writer) (*os.File, bool) {
	if c, ok := w.(*checkedWriter); ok {
		w = c.w
	}
	f, ok := w.(*os.File)
	return f, ok
}

// isTerminal reports whether a stream of the program is a terminal.
func isTerminal(w io.Writer) bool {
	f, ok := fileOf(w)
	return ok && term.IsTerminal(int(f.Fd()))
}
