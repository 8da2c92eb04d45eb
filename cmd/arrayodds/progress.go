package main

import (
	"io"
	"os"

	"arrayodds/sim/engine"

	"github.com/schollz/progressbar/v3"
)

// progress is a bar with the time that a simulation took so far and the time that is
// left, shown only on a terminal.
type progress struct {
	bar   *progressbar.ProgressBar // nil where nothing is shown
	share float64                  // of the work, as shown
}

const barSteps = 1000

func newProgress(w io.Writer) *progress {
	p := &progress{}
	if isTerminal(w) {
		p.bar = progressbar.NewOptions(barSteps,
			progressbar.OptionSetWriter(w),
			progressbar.OptionSetDescription("simulating"),
			progressbar.OptionSetWidth(40),
			progressbar.OptionSetPredictTime(true),
			progressbar.OptionClearOnFinish(),
		)
	}
	return p
}

// show returns what a simulation reports its progress to, nil where nothing is
// shown.
func (p *progress) show() func(engine.Progress) {
	if p.bar == nil {
		return nil
	}
	return func(now engine.Progress) {
		p.share = max(p.share, now.Share) // the work that is expected may grow
		// That the terminal has gone is no reason to stop simulating.
		_ = p.bar.Set(int(barSteps * p.share))
	}
}

// clear wipes the bar out.
func (p *progress) clear() {
	if p.bar != nil {
		_ = p.bar.Clear()
	}
}

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
