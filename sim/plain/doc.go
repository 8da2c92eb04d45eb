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
// To be plainly right: every drive has its own budget of hazard, an exponential number
// that its life uses up, and every latent defect its own birth and dwell. When a drive
// fails follows from its budget, and is worked out again only where the hazards of its
// group change; a queue tells which drive is next. It shares the system, the footage and the tallies with forced branching, and
// nothing else.
package plain
