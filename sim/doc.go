// Package sim computes what a choice of drives risks over a service life.
//
// [Run] is what to use for most cases: it simulates one choice of a site and gives a
// [Result], in which every figure is an [estimate.Estimate] with its 95 % interval.
// A site comes from package array/site, which reads a site file.
//
//	result, err := sim.Run(ctx, site, site.Choices[0], engine.Options{Seed: 1, Accuracy: 0.05, MaxTrials: 10e6})
//
// For many settings of one input there is package sim/sweep, which is faster and
// sharper than a Run for each; for single lives with every event, package sim/trace;
// for the questions that the commands ask, package sim/study, and for what needs no
// simulating, package sim/sizing.
//
// # What is simulated
//
// Package array says in words of the trade what a choice is. Package sim/model makes
// plain numbers and laws of it, and its doc has the rules of failure, repair and
// loss. Package sim/law has the laws of chance. The simulation itself there is
// twice: by forced branching (package sim/branch), which sees a loss of 10⁻¹² as
// often as one of 10⁻², and event by event (package sim/plain), which checks the
// other and serves where losses are common. Package sim/engine runs either of them.
//
// # What stands beside it
//
// [Result.Exact] is the loss chance without simulation, where every law is
// exponential, and [Result.Textbook] what the formulas of the trade say, from means
// alone (package sim/exact). [Result.Record] is how far the loss chance is in doubt
// because the record behind the failure rate is short. No number of trials makes
// that narrower.
//
// # When a run stops
//
// Trials are run in rounds until the 95 % half-width of the loss chance ÷ the loss
// chance is what [engine.Options] asks for and the sample can be trusted, or until
// the budget of trials, or of work, is used up. [Result.StoppedBy] says which, and
// [Result.Warnings] why a sample should not be trusted.
//
// # The same seed, the same digits
//
// Block i of a run always draws from stream (seed, i), and blocks are added in their
// order. Rounds depend on nothing but the sums so far. So one seed gives the same
// digits for any number of workers.
package sim
