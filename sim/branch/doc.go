// Package branch simulates one life of a choice by forced branching: rare
// failures are made to happen, each with the weight of its chance, so that a
// loss of 10⁻¹² is seen as often as one of 10⁻². The estimate is unbiased for
// any life and repair law.
//
// [New] makes a [Simulator] of a system, and [Simulator.Life] simulates one life;
// package engine runs many. A [Sampler] draws lives with a loss from them. The rules
// of failure and repair stand in package model.
//
// # Lines
//
// A line is one course of events with a weight. Lines are followed from window to
// window; a window ends at the next thing that is scheduled, or at the next failure
// in a group that has all its drives (those are not rare and fall as they may).
// Within a window, what is rare is a source with a known cumulative hazard:
//
//   - a failure in a group with drives down but more to spare forks the line: a
//     branch goes on in which it happens;
//   - a failure in a group at its tolerance (or, under stop, an unreadable
//     sector) is a loss: its chance is added to the estimate, and what comes
//     after the loss is followed as a branch of small weight;
//   - a common-cause event forks the line too.
//
// The line itself goes on with the chance that nothing of this happened. A
// branch that is restored to the level it left, or that was lost, is weighed
// against the weight at that level and ended by Russian roulette.
//
// # Twins
//
// When the length of an outage is drawn, long ones are rare and carry nearly
// all of the risk: a loss needs r further failures inside it, so its chance
// grows like length^r. So the length is drawn twice. The line takes its own
// draw from the law, and gives up the chance of a further failure in that
// group; a twin takes a draw from the tilted mixture ([law.Sum]) and lives only
// to fork where that failure happens. The group is then shadowed in the line.
// Twin and shadow end together, when the group is restored by a level.
//
// # Where this departs from the plainest scheme
//
//   - Failures in whole groups are never forced, but for the first of a life.
//   - The mixture keeps 0.2 of the law itself: weights grow by 5 at the most. (With
//     0.4 every benchmark with a repair of chance was wider.)
//   - Of the forks of a long stay, and of common-cause events, only about as many
//     are followed as the stay, or the life, has to give, times a few: branches of
//     branches would otherwise multiply without bound.
//   - Where there is one group only, a line is its own twin for a while.
//   - A line whose weight has fallen below half of what it started with at its
//     level is put to roulette as well, so that lines do not multiply where
//     losses are common.
//   - What multiplies hazards for a whole life (a batch's frailty, the rate
//     behind a field record) is drawn from 0.4·Gamma(a) + 0.6·Gamma(a + t + 1).
//     Everything that a life reports carries its weight, so more is kept of the
//     law itself than of the lengths ([law.Keep]).
//   - Where a common-cause event strikes, the chance of a loss by it is summed
//     exactly; the number that fail short of a loss is drawn from a mixture that
//     favours many.
package branch
