// Package choose finds the cheapest design that is safe enough: drives, layout, groups,
// hot spares and options of a site, held against its goal over all that is uncertain.
//
// [Find] is the whole of it. It goes in rounds, each of which leaves fewer designs and
// knows them better:
//
//   - every design: a few dozen lives each, from the same random streams;
//   - those of which no other is cheaper and safer, and misses no more clips, for sure:
//     ten times the lives, and what is left of them a hundred times;
//   - of the front that is left, the cheapest that can meet the goal and their neighbours:
//     compared as [study.Compare] compares choices, over the doubt about the inputs.
//
// With a fixed number of blocks there is one round of the race: every design has so many
// blocks of lives, whatever comes of it, so that several processes can share them.
//
// A design leaves the race only where the intervals say so: another costs no more, the
// upper end of its loss chance is below this one's lower end, and it does not miss more
// clips. The goal is met by what is to be reckoned with over the doubt, never as entered
// alone.
//
// # Cost
//
// Cost is that of the whole service life: drives, hot spares, recorder, options, drives
// bought for those that fail, energy where it has a price, and what options cost each
// year.
//
// # Designs
//
// A design has, for a drive model, a layout, a number of groups and of hot spares, the
// fewest drives that hold the footage, however wide that makes the groups: one that is
// wider than customary says so. Of options every set is tried in which none excludes
// another.
package choose
