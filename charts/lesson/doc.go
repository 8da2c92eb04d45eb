// Package lesson writes the page of a lesson: questions on a choice that the reader
// answers first, by a slider, and then sees what the simulation says.
//
// The page's own script, lesson.js, picks among verdicts and places that stand in the
// page, one for each place of the slider; it works nothing out.
package lesson

import "arrayodds/sim/teach"

// lesson is a lesson as its page asks it.
type lesson struct{ teach.Lesson }
