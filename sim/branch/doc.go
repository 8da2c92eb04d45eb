// Package branch simulates one life of a choice by forced branching: rare
// failures are made to happen, each with the weight of its chance, so that a
// loss of 10⁻¹² is seen as often as one of 10⁻². The estimate is unbiased for
// any life and repair law.
//
// [New] makes a [Simulator] of a system, and [Simulator.Life] simulates one life;
// package engine runs many. Package sample draws lives with a loss from them. The rules
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
// group; a twin takes a draw from the tilted mixture (package outage) and lives only
// to fork where that failure happens. The group is then shadowed in the line.
// Twin and shadow end together, when the group is restored by a level. What is
// seen of a group at its tolerance (hours without redundancy, sectors met) is
// counted by its twin, since it varies little there. A branch that has left its group to a
// twin is of no more use to a loss than the line that it left, and is put to roulette at
// once, as it would be when the group is restored.
//
// What the line gives up a branch of its twin brings back once the group is restored, and
// then it is as good as the line. So one even number, the lot of the outage, decides on
// both where lives have many such failures: the line goes on with its part of the numbers,
// a branch with one of the others, and as a rule a life has one main line all through.
//
// # Times of forks
//
// A fork leaves the failures that must still follow what is left of the outage, so
// early ones count for more. When a line forks within its window is drawn from that
// density, mixed with the even one the more the likelier failures are (package timing).
//
// # Hot spares
//
// Where spares are out, a failure in a whole group is rare and matters: it uses
// another one up, and once none is left a failed drive waits. So it forks the line
// too. How long a spare is out is drawn twice, as an outage is; the twin lives until
// a spare comes back.
//
// A state with spares out is worth more than one without, and weights must follow
// that. A small Markov chain of mean rates says roughly what each state is worth (package
// worth). It decides how many of such forks are followed, and against what weight a line is
// held whose group is restored while spares are still out. A wrong worth costs time or
// accuracy, never truth.
//
// # Controls
//
// What is chance and known to be so is noted beside what a life sees, for package
// model to take it out of every figure: failures of the main line, and of branches that
// have come back to it, less the hazard passed through, the weights of tilted draws less
// 1, and all weight that comes and goes: what lines give up and branches bring, what roulette
// adds and takes. Of lives with many failures that is most of the variance. Failures and
// common-cause events are noted year by year too, for the curve. First failures, first
// common-cause events and what these strike are stratified over the lives of a batch.
//
// # Where this departs from the plainest scheme
//
//   - Failures in whole groups are forced only where spares are out, and where fewer
//     than one in two stays has one; and the first of a life is, also of one that begins in
//     a state if all drives run in it: where they are of several ages, by the first candidate
//     of the thinning.
//   - Failures of replaced drives are drawn by thinning.
//   - The mixture keeps 0.2 of the law itself: weights grow by 5 at the most. (With
//     0.4 every benchmark with a repair of chance was wider.)
//   - Of the forks of a long stay, and of common-cause events, only about as many
//     are followed as the stay, or the life, has to give, times a few: branches of
//     branches would otherwise multiply without bound. Of forks it is fewer where
//     common cause makes nearly all of the losses, by rough mean rates (package effort).
//   - Of the shortest windows only some are looked at for common cause, with the weight
//     of all: after an event that strikes many drives there are hundreds of them.
//   - The hazard of the young drives of a large group is reckoned by their bounds, and what
//     comes of it weighed for the real one.
//   - In a window in which the hazard hardly changes, a failure comes as by a constant
//     one, or at any hour alike where it is small, and the ratio of the densities goes into
//     the weight. Elsewhere the time at which the cumulative hazard is reached is solved for.
//   - Where there is one group only, a line is its own twin for a while.
//   - A line whose weight has fallen below half of what it started with at its
//     level is put to roulette as well, so that lines do not multiply where
//     losses are common.
//   - What multiplies hazards for a whole life (a batch's frailty, the rate
//     behind a field record; package multiplier) is drawn from 0.4·Gamma(a) +
//     0.6·Gamma(a + t + 1), with more of the first where failures make few of the losses;
//     with s hot spares half of the latter is Gamma(a + t + 1 + s). Everything that a life reports carries its
//     weight, so more is kept of the law itself than of the lengths ([law.Keep]).
//   - Where a common-cause event strikes, the chance of a loss by it is summed
//     exactly; the number that fail short of a loss is drawn from a mixture that
//     favours many, by the square of the number (package commoncause).
package branch
