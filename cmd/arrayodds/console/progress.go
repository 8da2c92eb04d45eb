package console

import (
	"io"
	"os"

	"arrayodds/sim/engine"

	"github.com/schollz/progressbar/v3"
)

// Progress is a bar with the time that a simulation took so far and the time that is
// left, shown only on a terminal.
type Progress struct {
	bar   *progressbar.ProgressBar // nil where nothing is shown
	share float64                  // of the work, as shown
}

const barSteps = 1000

// NewProgress returns a bar on w, which shows nothing where that is no terminal.
func NewProgress(w io.Writer) *Progress {
	p := &Progress{}
	if IsTerminal(w) {
		p.bar = progressbar.NewOptions(barSteps,
			progressbar.OptionSetWriter(w),
			progressbar.OptionSetDescription("simulating"),
			progressbar.OptionSetWidth(40),
			progressbar.OptionSetPredictTime(true),
			progressbar.OptionClearOnFinish(),
		)
		_ = p.bar.RenderBlank() // at once, so that nobody waits before nothing
	}
	return p
}

// Show returns what a simulation reports its progress to, nil where nothing is
// shown.
func (p *Progress) Show() func(engine.Progress) {
	if p.bar == nil {
		return nil
	}
	return func(now engine.Progress) {
		p.share = max(p.share, now.Share) // the work that is expected may grow
		// That the terminal has gone is no reason to stop simulating.
		_ = p.bar.Set(int(barSteps * p.share))
	}
}

// Clear wipes the bar out.
func (p *Progress) Clear() {
	if p.bar != nil {
		_ = p.bar.Clear()
	}
}

// Reading is a file with a bar on the terminal that shows how much of it has
// been read. It can be read from any place, as archives are.
type Reading struct {
	*os.File
	bar *progressbar.ProgressBar
}

// NewReading returns f with its bar on w; without one where w is no terminal
// or the size is not known, as of a pipe.
func NewReading(f *os.File, w io.Writer) Reading {
	r := Reading{File: f}
	if info, err := f.Stat(); err == nil && info.Mode().IsRegular() && IsTerminal(w) {
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

func (r Reading) Read(b []byte) (int, error) {
	n, err := r.File.Read(b)
	r.show(n)
	return n, err
}

func (r Reading) ReadAt(b []byte, at int64) (int, error) {
	n, err := r.File.ReadAt(b, at)
	r.show(n)
	return n, err
}

func (r Reading) show(n int) {
	if r.bar != nil {
		// That the terminal has gone is no reason to stop reading.
		_ = r.bar.Add(n)
	}
}

// Clear wipes the bar out.
func (r Reading) Clear() {
	if r.bar != nil {
		_ = r.bar.Finish()
	}
}
