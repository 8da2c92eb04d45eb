// Package engine runs the trials of one system: in blocks that have their own
// random streams, by several workers, until the loss chance is accurate enough.
//
// For most cases [Simulate] is all that is needed: a system and [Options] in, the
// [model.Sums] of all trials and what ended the run out. It is used with package
// sim, which makes the system of a choice and a result of the sums. A [Runner] is
// for callers that have a stopping rule of their own.
//
// # Blocks
//
// A block is [TrialsPerBlock] trials, or fewer where a pilot shows that each takes long.
// Block i draws from stream (seed, i) and from nothing else, and blocks are added up in
// their order. So the digits of a run
// depend on its seed and on the number of its blocks, never on the workers.
//
// With [Options.Blocks] a run has a fixed number of blocks, which are added pairwise: so
// processes that share them ([Options.Ledger]) find the digits of one. Package divide has
// the rest.
//
// # When a run stops
//
// Blocks are run in rounds. After each round the run stops if the half-width of
// the loss chance ([RelativeHalfWidth]) is what [Options.Accuracy] asks for and
// the sample can be trusted ([Warnings] is empty), or if the budget of trials or
// of work is used up. For the other figures that are shown ([WidestOther]) it goes on
// up to a few times as long; each has its own interval, whatever it is by then.
// [NextBlocks] is the length of the next round. It depends on the sums alone, so rounds
// are the same for any number of workers.
//
// Work is counted by the simulators themselves, not by a clock. It bounds the time
// of a run whatever the choice is; a block that would take more than its part ends
// the run with a [BusyError].
//
// # Plain lives
//
// Where losses are common, and forced branching has nothing to force, plain lives may
// be worth more for the work they take. [PlainServes] tries some of each kind and
// decides; it depends on the system and the seed alone. Where losses are so common that
// lines multiply, branching does not know its own error: a few losses among plain lives
// that it has hardly seen are enough.
//
// # Whether a sample can be trusted
//
// A weighted sample of which the sum rests on few trials knows neither its value
// nor its error. [model.Sums.EffectiveSamples] and [LargestShare] tell how many it rests on,
// and [Warnings] puts into words where that is too few.
package engine
