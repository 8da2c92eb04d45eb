package main

import (
	"io"
	"os"

	"github.com/schollz/progressbar/v3"
)

// readProgress is a file with a bar on the terminal that shows how much of it has
// been read. It can be read from any place, as archives are.
type readProgress struct {
	*os.File
	bar *progressbar.ProgressBar
}

// newReadProgress returns f with its bar on w; without one where w is no terminal
// or the size is not known, as of a pipe.
func newReadProgress(f *os.File, w io.Writer) readProgress {
	r := readProgress{File: f}
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

func (r readProgress) Read(b []byte) (int, error) {
	n, err := r.File.Read(b)
	r.show(n)
	return n, err
}

func (r readProgress) ReadAt(b []byte, at int64) (int, error) {
	n, err := r.File.ReadAt(b, at)
	r.show(n)
	return n, err
}

func (r readProgress) show(n int) {
	if r.bar != nil {
		// That the terminal has gone is no reason to stop reading.
		_ = r.bar.Add(n)
	}
}

// clear wipes the bar out.
func (r readProgress) clear() {
	if r.bar != nil {
		_ = r.bar.Finish()
	}
}
