// Package estimate has the type of every figure of a simulation: a value with its
// 95 % interval.
//
// An [Estimate] goes from the engine to files, tables and pages as it is; what is
// made of it on the way ([Estimate.Times], [Estimate.Plus]) keeps its interval.
// Numbers are rounded by package figure, at the end.
//
// # Where an interval comes from
//
//   - [FromError], for a mean over weighted trials and its standard error: Student's t.
//   - [Proportion], for a chance from trials that are 0 or 1: the exact interval of
//     Clopper and Pearson.
//   - [Unseen], for a mean to which no trial contributed: an upper end from the
//     Poisson law. What was not seen is not certainly 0.
//   - [Quantile], for a quantile of a sample: the ranks of a binomial law.
//   - [FromInterval], where the interval was found by other means.
//   - [Exact], for a closed form: no width.
//   - [None], where there is no figure: all NaN.
package estimate
