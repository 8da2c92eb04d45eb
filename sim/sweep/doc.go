// Package sweep simulates one choice at many settings of its inputs, and finds the
// setting at which its loss chance meets a goal.
//
// For most cases [Run] is all that is needed: a list of points in, each a choice of
// a site at one setting, and a [Series] out. [Series.Result] gives the figures of a
// point and [Series.Ratio] the loss chance of one point ÷ that of another, with an
// interval that is far narrower than those of the two suggest. [FindBreakEven] looks
// for the value of one input at which a loss chance, or that of another choice, is
// met.
//
// # Common random streams
//
// All points are simulated from the same random streams, so that what differs
// between two of them is the setting, and far less the luck. Trial n of every point
// draws from stream (seed, n), a stream of its own, so that lives at two settings
// part within one life and meet again at the next. (Where the trials of a block
// share a stream, as in package engine, the first draw that one point makes and the
// other does not parts them for the rest of the block.) The digits of a point depend
// on the seed and on the number of its trials, never on the number of workers.
//
// The interval of a ratio is 0.7 (restoring in 48 h and in 52 h) to 1 (choices of
// different parity) as wide as without common streams: what a few hundred trials may
// not have seen at all is most of it. TestRatioCoversTheChain logs it.
//
// # Bundles
//
// Trial n adds to bundle n mod 128. Bundles are alike, and independent but for first
// failures, which are stratified over eight of them and so make errors seem larger than
// they are. So the 128 sums are all that is kept of a point to know how two points go together, even
// where one has more trials than the other.
package sweep
