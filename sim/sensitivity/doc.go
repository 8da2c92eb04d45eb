// Package sensitivity finds how much of the variance of a figure comes of each of the
// inputs that it depends on: Sobol' indices, with intervals.
//
// There are two ways, each with an [Eval] that works the figure out: [Polynomial], where
// the figure is smooth, and [Indices], which asks nothing of it and takes many times the
// points. The inputs are independent and uniform on (0, 1); who calls maps them to what
// they mean. The first index of an input is the share of the variance that goes if that
// input becomes known; the total index is the share that is left if all others become
// known. What the total has above the first the input does together with others. First
// indices add up to 1 at most, totals to 1 at least.
//
// # By a polynomial
//
// A polynomial is fitted by least squares to the figure at independent points. Its
// terms are polynomials of one input, and products of two, that are orthonormal under
// the inputs' laws, so that its variance is the sum of the squares of the coefficients,
// and a share of it the sum of some of them: B. Sudret, "Global sensitivity analysis
// using polynomial chaos expansions", Reliability Engineering and System Safety 93,
// 2008 (from memory). A square has taken from it what chance adds to it.
//
// How far the terms go is chosen by what the polynomial misses at points that it was not
// fitted to, one of 16 replicates after the other left out. The mean square of that is
// taken for a part of the variance that may come of any input: an interval reaches from
// the share of which none of it is to the share of which all of it is, and on both sides
// as far again as the jackknife below says. So it is rather too wide than too narrow.
//
// Noise of the figure is missed, and so it widens the intervals of all inputs, but it is
// no part of the indices. What is the same at all points of a replicate is left out by a
// constant for each replicate. So a figure that is simulated is best simulated from
// common random streams within a replicate and from others in the next: then what the
// streams do to slopes differs from replicate to replicate, and the jackknife sees it.
//
// # By sampling
//
// The sample is that of A. Saltelli, "Making best use of model evaluations to
// compute sensitivity indices", Computer Physics Communications 145, 2002: two
// independent samples A and B, and for each input B with that column taken from
// A. First indices are by A. Saltelli, P. Annoni, I. Azzini, F. Campolongo, M.
// Ratto, S. Tarantola, "Variance based sensitivity analysis of model output",
// Computer Physics Communications 181, 2010, with the mean taken off: the
// covariance of the figure at A with what that column does to the figure at B. An
// input that does little is so estimated with little noise; the correlation of two
// points that share the one input (the estimator T of A. Janon and others, 2014)
// has the same noise for every input, which drowns small shares. Total indices are
// by M. J. W. Jansen, "Analysis of variance designs for model output", Computer
// Physics Communications 117, 1999: half the mean square of the difference between
// two points that share all but the one input. (All from memory.)
//
// # Intervals
//
// Points, or A and B, come as 16 independent replicates, each a Latin hypercube (M.
// D. McKay, R. J. Beckman, W. J. Conover, Technometrics 21, 1979). Sums are pooled
// over the replicates, and the intervals are those of the jackknife that leaves one
// replicate out at a time, with Student's t on 15 degrees of freedom.
//
// In sampling, a figure that is itself an estimate adds the variance of its noise to
// all totals, unless the noise is the same at every point, as it nearly is where all
// points are simulated from common random streams.
package sensitivity
