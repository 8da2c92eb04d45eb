package charts

import (
	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/estimate"
)

// lesson is a lesson as its page asks it.
type lesson struct{ Lesson }

// Lesson is what a page of questions is made of: each moves one input of a choice,
// the reader predicts, and then sees what the simulation says.
type Lesson struct {
	Site        array.Site
	Choice      array.Choice
	Sizing      array.Sizing
	Seed        uint64
	Loss        estimate.Estimate // loss chance of the choice as it stands
	Questions   []Question
	Assumptions []site.Assumption
}

// Question moves one input.
type Question struct {
	Key    string // "size", "response" or "parity": an identifier
	Title  string // "Larger drives"
	Ask    string // the question, in sentences
	Points []LessonPoint
	Before int // place in Points of the choice as it stands
	After  int // place of the one that is asked about
	// Times is the loss chance after ÷ the one before, with the interval that the
	// same random streams give.
	Times estimate.Estimate
	Facts []LessonFact // what explains it
	Why   string       // the explanation, in sentences
}

// LessonPoint is the loss chance at one setting of the input.
type LessonPoint struct {
	Text   string // "24 TB, 5 drives"
	Absent string // why there is no figure; empty: there is
	Loss   estimate.Estimate
}

// LessonFact is a figure before and after.
type LessonFact struct{ Name, Before, After string }
