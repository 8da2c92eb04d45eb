// Package fit finds a law of life in the record of a fleet.
//
// [Fleet] is all that is needed: it takes what was seen of the drives that go by one
// label and gives a [Result]: the annual failure rate, the rate by year of age, the Kaplan-Meier
// curve, an exponential and a Weibull law with their intervals, and which of
// them the record decides for. Where it is too thin to decide, the result says
// so in its warnings.
//
// # The rate
//
// A year is 365 days. With k failures in D drive-years the rate is k/D, and its
// 95 % interval that of Gamma(k + ½, D), the posterior of the Jeffreys prior
// ([Rate]); with no failure its low end is 0.
//
// # The Weibull law
//
// Each drive adds to the log likelihood the log hazard at its failure, if it
// failed, less the cumulative hazard from the age at which watching began to
// the age at which it ended. For a given shape the best scale has a closed form,
// so that one search over the shape is all; intervals are those of the profile
// likelihood, which unlike ±1.96 standard errors are right for few failures. See
// Lawless, Statistical Models and Methods for Lifetime Data, 2nd edition, 2003,
// chapters 2 and 5.
//
// The age at which the yearly rate of a law that ages passes 5 % and 10 % is told with
// the interval that follows from the likelihood, by its contour in shape and scale.
//
// # The curve
//
// Kaplan and Meier's estimator, with only those drives at risk at an age that
// were being watched at that age, Greenwood's variance and an interval on the
// scale of log(−log S), which stays within 0 and 1.
package fit
