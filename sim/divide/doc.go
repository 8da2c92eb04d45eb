// Package divide divides the simulations of one question among processes, and puts
// together what they found to the digits of one process.
//
// A question that is divided has a fixed number of blocks of lives for each system, and no
// stopping rule: so what is to be done does not depend on what is found. A process that
// works out a [Share] of it has a [Ledger] made by [NewLedger], which keeps what was found;
// the process that merges has one made by [Merge], which gives it back to whatever asks
// for the same system, seed and number of blocks ([KeyOf]). Package engine divides the
// blocks of a run, package sweep the points of a series.
//
// # Why the digits are the same
//
// Sums of floating-point numbers depend on the order in which they are added. So blocks
// of a run with a fixed number of them are added pairwise, as a [Tree] has it: blocks 2i
// and 2i + 1 to a node, two such nodes to one of the next level, and so on, whoever adds
// them. A part keeps the nodes that lie within its share, no more than two of each level;
// the merge adds what is between them. (A part's size grows with the logarithm of the
// number of blocks.) A point of a series is simulated by one process alone.
package divide
