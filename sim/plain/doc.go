// Package plain simulates one life of a choice event by event, drive by drive, with
// nothing forced and no weights. It is how forced branching is checked, and what single
// lives are made of; it cannot see a loss that is rarer than one in the number of lives.
//
// [New] makes a [Simulator] of a system. [Simulator.Life] simulates one life and adds
// it up, [Simulator.Trace] also writes it down, and [Simulator.Follow] goes on from a
// history that forced branching drew. Package engine runs many lives. The rules of
// failure and repair stand in package model.
//
// # How it is written
//
// To be plainly right rather than fast: every drive has its own budget of hazard, an
// exponential number that its life uses up, and every latent defect its own birth and
// dwell. It shares the system, the footage and the tallies with forced branching, and
// nothing else.
package plain
