// Package parts codes the parts of a comparison, so that they can be worked out in
// separate processes, or on separate machines, and put together to the same digits.
//
// A comparison of n choices has n + [study.Replicates] parts: the run of each choice
// ([study.RunChoice]), and then the replicates of its doubt ([study.RunReplicate]), each
// of which needs the results of all runs. [Results] and [Replicates] give what was
// decoded to [study.Compare], which works out what is wanting:
//
//	results := [][]byte{...}   // of EncodeResult, by the places of the choices
//	simulate, err := parts.Results(asked, results, sim.Run)
//	asked.Replicate, err = parts.Replicates(replicates)
//	comparison, err := study.Compare(ctx, asked, simulate)
//
// # The code
//
// Numbers are kept bit by bit, NaN, infinities and −0 among them, and what is nil stays
// nil. (JSON has no NaN, and encoding/gob takes a pointer to 0 for nil and −0 for 0.) The
// code holds for one version of the types: a part begins with what it is a part of and a
// check of the type's fields, and what begins otherwise is refused.
package parts
