// Package trace simulates single lives of a choice with every event in them: what
// happened to which drive, when, and what footage there was.
//
// [Run] gives up to [MaxLives] lives of a choice: any lives, or such in which
// footage is lost. [NewRebuild] works out one rebuild for drives of other sizes and
// for other waits. Both are for people to look at; figures come of package sim.
//
// # How a life is made
//
// A [Life] is made in two steps. Its course (failures, waits, rebuilds, losses) is
// simulated: by package plain from the start, or by forced branching up to the
// first loss ([history.History]) and by package plain from there. Either way
// package plain writes it into a [history.Record]. From the record the life is then
// filled in: the spans of each bay, the footage held, latent defects and unreadable
// sectors.
//
// # Lives with a loss
//
// Losses are rare, so lives with one are drawn from forced branching, in which
// every first loss has a weight. They are drawn in proportion to the weights, so
// that they follow the law of all lives on condition of a loss. A sample that is too
// small for the number of lives asked for is said to be so in [Lives.Warnings].
//
// # Defects and unreadable sectors
//
// Under policy skip they do not touch the course, so they are drawn afterwards, each
// at its rate, and met where the course has need of them.
//
// Under stop the course was simulated with the chance that none was met, or, at
// a loss by one, that one was. So they are drawn on that condition. Latent defects
// are a Poisson process of births and dwells: on condition that none is present at
// a moment those that would be are left out, and on condition that some are their
// number is a Poisson number that is not 0. The age of one that is present has a
// density in proportion to the chance that its dwell is longer.
package trace
