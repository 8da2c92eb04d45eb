// Package trace tells single lives of a choice: what befell which drive, hour
// by hour, and what footage there was.
//
// A life is made in two steps. Its course (failures, waits, rebuilds, losses) is
// simulated: by package plain from the start, or by forced branching up to the
// first loss ([History]) and by package plain from there. Either way package
// plain writes it down in a [Record]. [Tell] then makes the [Life] of the
// record: it fills in what lies beside the course, the spans of each bay, the
// footage held, latent defects and unreadable sectors.
//
// # Defects and unreadable sectors
//
// Under policy skip they do not touch the course, so they are drawn here, each
// at its rate, and met where the course has need of them.
//
// Under stop the course was simulated with the chance that none was met, or, at
// a loss by one, that one was. So they are drawn here on that condition. Latent
// defects are a Poisson process of births and dwells: on condition that none is
// present at a moment those that would be are left out, and on condition that
// some are their number is a Poisson number that is not 0. The age of one that
// is present has a density in proportion to the chance that its dwell is longer.
package trace
