package console

import (
	"io"
	"os"

	"golang.org/x/term"
)

// Writer is a stream that remembers the first error of writing to it. Make it with
// [NewWriter].
type Writer struct {
	w   io.Writer
	err error
}

// Write writes to the stream.
func (c *Writer) Write(b []byte) (int, error) {
	n, err := c.w.Write(b)
	if c.err == nil {
		c.err = err
	}
	return n, err
}

// NewWriter returns a writer to a stream.
func NewWriter(w io.Writer) *Writer { return &Writer{w: w} }

// Err returns the first error of writing, nil where there was none.
func (c *Writer) Err() error { return c.err }

// FileOf returns the file that a stream of the program is, and whether it is one.
func FileOf(w io.Writer) (*os.File, bool) {
	if c, ok := w.(*Writer); ok {
		w = c.w
	}
	f, ok := w.(*os.File)
	return f, ok
}

// IsTerminal reports whether a stream of the program is a terminal.
func IsTerminal(w io.Writer) bool {
	f, ok := FileOf(w)
	return ok && term.IsTerminal(int(f.Fd()))
}
