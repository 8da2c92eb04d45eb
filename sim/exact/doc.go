// Package exact has what can be said of an array's loss chance without simulating
// it, to stand beside the simulation and to check it.
//
// [Chain] is the one to use where every law is exponential: its loss chance is right
// to nearly all digits of a float64, however rare the loss. [Textbook] is what the
// trade computes from means alone. Both are of one group of drives; [AnyOf] gives the
// chance for several. Hours and bytes throughout.
//
// # The Markov chain
//
// A group in which everything that happens has a constant rate is a Markov chain over
// the number of drives that are down. [Chain.LossBy] is its transient solution by
// uniformisation and squaring, by package markov. Package spares has the chain that
// knows hot spares and waits.
//
// # The textbook formulas
//
// They take restores to be short against lives, and losses to come at an even rate
// from the first hour. [Textbook.FailureLossPerHour] and
// [Textbook.UnreadableLossPerHour] have their sources.
package exact
