// Package plan works out how one choice of a site is built, handed over and kept: the
// parts with what they cost and weigh, which drive goes into which bay, power, settings,
// checks of acceptance, and a calendar.
//
// [Make] gives a [Plan]: figures, each with its interval where chance has a part in it,
// and the sentences that a page, a table and a file share. What the site file does not
// give is not made up: it stands as a blank to fill in. A figure of common practice says
// that it has no source.
//
// # What is simulated
//
//   - The loss chance and the rest of a [sim.Result], as comparisons have it.
//   - Plain lives, drive by drive ([newLives]): drives failed in each year, and how many
//     drives are wanted from a failure until a drive ordered for it is on the shelf, which
//     is what shelf spares are counted by.
//   - The choice with its first drives dealt from several batches, and with other rebuild
//     shares, from the same random streams ([sim/sweep]), so that ratios are sharp.
//   - The risk year by year, to twice the service life, in independent runs whose spread
//     is the interval.
package plan
