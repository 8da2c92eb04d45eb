// Package study has the questions that commands ask of a site, one function each,
// and the results that tables, files and pages are made of.
//
//   - [Suggest]: the fewest drives that hold the footage, without simulating;
//   - [Compare]: every choice, sized and simulated: a [Comparison];
//   - [Vary]: one or two inputs over their values, and the value that meets a
//     target: a [Sweep];
//   - [Rank]: which input matters most: a [Ranking];
//   - [TraceLives]: single lives, event by event: a [Replay];
//   - [FitRecord]: the life laws in a fleet's record: a [Fit].
//
// Questions for learners stand in package teach beside it.
//
// A question about inputs is answered by reading the site file again with each
// value in its place and simulating all that comes of it from the same random
// streams, so that differences are known better than the figures themselves.
//
// # Parts
//
// A comparison can be worked out in parts: each choice ([RunChoice]) and each replicate of
// the doubt ([RunReplicate]) by itself, in whatever order and process, and [Compare] puts
// them together to the digits that it gives alone. Package parts beside this one codes
// them.
//
// # Doubt
//
// [Compare] also says what the inputs' being uncertain leaves of its figures ([Doubt]).
// Drawn together are all inputs with a range in the file, records and fits, each by its
// law, and of what has no range in the file what the trade knows to be doubtful: failure
// rates, common cause, response. These take the default ranges of package axis, which are
// guesses but for a datasheet's rate. What else [Rank] moves over a default range, such as
// batches, is not drawn: where the file leaves it out, it is tried once as a hazard left
// out ([LeftOut]).
//
// Results hold figures as they were computed, in hours, bytes and chances of 0 to
// 1. Units for people, rounding and keys are the business of what writes them.
package study
