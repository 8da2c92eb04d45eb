// Package model is what the simulation is given and what it counts.
//
//   - A [System] is a choice of drives as plain numbers and laws. [New] makes it of a
//     site's choice; a [Builder] does so for many choices.
//   - [Footage] is the camera groups as the ring of the recorder holds them: what a loss
//     destroys, and for how long it is missing.
//   - A [Trial] is what one life adds up, and [Sums] adds trials. A [Fit] makes estimates
//     of sums, with what they have in common with known chance ([Control]) taken out.
//
// Forced branching (package branch) and the plain simulation (package plain) share all
// three, so that either can stand for the other; they share nothing else. Hours and
// bytes throughout.
//
// # The rules of failure, repair and loss
//
// A group is what tolerates failures, a set is the groups that are lost
// together. All drives are new at time zero, which falls on a random hour of
// the week.
//
// A failed drive waits (notice, then response) unless a hot spare is free at
// the moment of failure; then it is rebuilt, one at a time in each group in the
// order of becoming ready or all at once, and is a new drive of a batch of its
// own. A group with more drives down than it tolerates is lost, and its set
// with it; after one draw of notice and response the set starts again with the
// failed drives replaced, the others as old as they are, nothing stored and no
// defects.
//
// Choices made where the rules leave room:
//
//   - The drive whose failure loses a group takes no hot spare: there is
//     nothing to rebuild. Spares taken before stay taken until restocked.
//   - Several groups of one set lost by one common-cause event are one loss.
//     Such an event gives free spares to the groups in their order.
//   - Latent defects on a drive are an M/G/∞ queue: the number present is
//     Poisson with mean rate × E[min(dwell, time since they were last
//     cleared)]. That is rate × expected dwell once the dwell is over, and rate
//     × age where nothing scrubs. The dwell is the scrub law itself.
//   - All defects met at one moment are one incident; each costs a stripe.
//   - Where every set is down nothing records, as where the only one is.
//   - A loss that an unreadable sector causes counts under that cause.
//
// # What made a loss
//
// Every term that is added to the chance of a first loss carries its [Cause], told by
// what ended the group:
//
//   - a common-cause event: common cause;
//   - an unreadable sector, under stop: unreadable;
//   - the failure of a drive in a group that tolerates none: first failure;
//   - else a failure while some failed drive of that group waits (notice or response):
//     waiting, or spares out where the choice has hot spares, since none was free;
//   - else, all failed drives of the group being rebuilt or queued for it: rebuilding.
//     A restore law counts as a rebuild.
//
// Several sets lost by one event are one loss.
package model
