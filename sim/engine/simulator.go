package engine

import (
	"arrayodds/sim/branch"
	"arrayodds/sim/model"
	"arrayodds/sim/plain"
	"arrayodds/sim/stream"
)

// A Simulator simulates lives of one system. It must not be used by two goroutines
// at once.
type Simulator interface {
	// Life simulates one life with the numbers of a stream and adds what it sees to
	// the trial. It reports whether the life came to its end: it does not where it
	// takes more work than the trial allows, or the run was stopped.
	Life(*stream.Stream, *model.Trial) bool
}

// NewSimulator returns a simulator of a system, by forced branching (package
// branch) or, if eventByEvent, without it (package plain).
func NewSimulator(sys *model.System, eventByEvent bool) Simulator {
	if eventByEvent {
		return plain.New(sys)
	}
	return branch.New(sys)
}
