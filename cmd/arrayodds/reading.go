package main

import (
	"io"
	"os"

	"github.com/schollz/progressbar/v3"
)

// reading is a file whose reading is shown on a terminal. It can be read from
// any place, as archives are.
type reading struct {
	*os.File
	bar *progressbar.ProgressBar
}

// newReading shows how much of a file is read, and nothing where there is no
// terminal or the size is not known, as of a pipe.
func newReading(f *os.File, w io.Writer) reading {
	r := reading{File: f}
	if info, err := f.Stat(); err == nil && info.Mode().IsRegular() && isTerminal(w) {
		r.bar = progressbar.NewOptions64(info.Size(),
			progressbar.OptionSetWriter(w),
			progressbar.OptionSetDescription("reading"),
			progressbar.OptionSetWidth(40),
			progressbar.OptionShowBytes(true),
			progressbar.OptionClearOnFinish(),
		)
	}
	return r
}

func (r reading) Read(b []byte) (int, error) {
	n, err := r.File.Read(b)
	r.show(n)
	return n, err
}

func (r reading) ReadAt(b []byte, at int64) (int, error) {
	n, err := r.File.ReadAt(b, at)
	r.show(n)
	return n, err
}

func (r reading) show(n int) {
	if r.bar != nil {
		// That the terminal has gone is no reason to stop reading.
		_ = r.bar.Add(n)
	}
}

// end wipes the bar out.
func (r reading) end() {
	if r.bar != nil {
		_ = r.bar.Finish()
	}
}
