// Package teach has the questions of a lesson: each moves one thing about a choice, for
// a reader to predict before seeing what the simulation says, and why.
//
// [Run] asks them and has the simulation answer; [Ask] only asks. A question is a
// function that gives its settings and its reason, and a row of the table of them.
package teach
