package engine

// Options say how a choice is simulated.
type Options struct {
	Seed      uint64
	Accuracy  float64 // wanted 95 % half-width of the loss chance ÷ the loss chance, above 0
	MaxTrials int64   // budget
	Plain     bool    // one life event by event, without forced branching
	Workers   int     // 0: one for each processor; the digits do not depend on it
	// Slots, where given, bounds the workers of all runs that share them, so that
	// runs side by side take no more processors than one alone would.
	Slots Slots
	// Progress, where given, is called from one goroutine at a time after each
	// round of trials.
	Progress func(Progress)
}

// Progress is how far the run of one choice is.
type Progress struct {
	Trials   int
	Accuracy float64 // 95 % half-width ÷ value so far; +Inf before the first loss is seen
	Share    float64 // of the work that is foreseen, 0 to 1
}

// StoppedBy says what ended a run.
type StoppedBy string

// A run ends when the loss chance is as accurate as asked for, or when its
// budget of trials or of steps is used up first. Where not even a block of lives
// ends within the work that a run may take, it ends by its bound, with a
// [BusyError].
const (
	ByAccuracy StoppedBy = "accuracy"
	ByBudget   StoppedBy = "budget"
	ByBound    StoppedBy = "bound"
)
