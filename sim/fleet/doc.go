// Package fleet answers for many arrays at once: where to go first, and what failures and
// spares to expect of all of them.
//
// [Ask] answers. What it is asked of is plain values; package array/state/folder reads
// them from files.
//
// # The order
//
// Arrays of which more drives are down than they stand come first, by name: a visit
// takes nothing off there, but somebody has to be called. The others are ordered by what
// a visit tonight takes off: the chance of losing footage within 30 days, less that
// chance with the one thing done that helps most of those that package now knows. So an
// array in great danger that nothing helps comes behind one that can be helped. Where
// nothing helps beyond doubt ([now.Action.Helps]), what is taken off is 0, and the chance
// itself gives the order. Before that is said of an array where something may help, it is
// simulated further; where the budget ends first, its advice says that it is not known.
//
// An array counts as one, however much footage is on it: what an hour of a camera is worth
// the program cannot know, and sites without cameras say nothing of it. The footage that
// a loss would destroy stands beside the order.
//
// # Two stages
//
// First every array is simulated in 512 lives; arrays alike to the last figure once. Where
// the interval of one cannot be trusted, or of one without drives down is not as narrow as
// was asked for (in a fleet of 1 000 arrays and more: reaches further than half of the
// chance to either side), more follow, where the chance is greatest first, until the
// budget for that is used up: of the rest the results keep their warnings. Then those that may belong to the head ([Head] arrays), and whose
// order is in doubt as their intervals overlap, are simulated in four times as many
// lives, and again, until they are apart, as accurate as was asked for, or at the end of
// the budget. Those that are still not apart are marked ([Standing.Tied]).
//
// Each array has random streams of its own, from the seed and what is known of the array,
// so that what is simulated of one neither depends on the others nor errs with them, and
// errors of a sum add as those of independent figures.
//
// # The next year
//
// Failures of a year are simulated in plain lives of every array, from its state on, the
// replaced drives among those that fail. In each replicate of the fleet, drives whose
// rate is of the same record, or whose law is of the same fit, live by one draw of it:
// what is not known of a model moves all of its drives together, and the sum varies more
// than that of drives each with a draw of its own. An array that is lost counts as set up
// again, with its failed drives replaced.
package fleet
