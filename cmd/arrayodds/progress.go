package main

import (
	"io"
	"sync"

	"arrayodds/sim/engine"

	"github.com/schollz/progressbar/v3"
)

// progress is one bar for all choices, with the time it took so far and the time
// that is left, shown only to a terminal.
type progress struct {
	mu     sync.Mutex
	shares []float64 // of each choice's work
	bar    *progressbar.ProgressBar
}

const barSteps = 1000

func newProgress(w io.Writer, choices int) *progress {
	p := &progress{shares: make([]float64, choices)}
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

// forChoice returns what a choice reports to, nil where nothing is shown.
func (p *progress) forChoice(choice int) func(engine.Progress) {
	if p.bar == nil {
		return nil
	}
	return func(s engine.Progress) {
		p.mu.Lock()
		defer p.mu.Unlock()
		p.shares[choice] = max(p.shares[choice], s.Share) // the work that is expected may grow
		sum := 0.0
		for _, share := range p.shares {
			sum += share
		}
		// That the terminal has gone is no reason to stop simulating.
		_ = p.bar.Set(int(barSteps * sum / float64(len(p.shares))))
	}
}

// clear wipes the bar out.
func (p *progress) clear() {
	if p.bar != nil {
		_ = p.bar.Clear()
	}
}
