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
// Results hold figures as they were computed, in hours, bytes and chances of 0 to
// 1. Units for people, rounding and keys are the business of what writes them.
package study
