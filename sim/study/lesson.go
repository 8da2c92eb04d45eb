package study

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/estimate"
)

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
	Facts []Fact // what explains it
	Why   string // the explanation, in sentences
}

// LessonPoint is the loss chance at one setting of the input.
type LessonPoint struct {
	Text   string // "24 TB, 5 drives"
	Absent string // why there is no figure; empty: there is
	Loss   estimate.Estimate
}

// Fact is a figure before and after.
type Fact struct{ Name, Before, After string }

// Answered says whether there is an answer in figures.
func (q Question) Answered() bool {
	return q.PointBefore().Absent == "" && q.PointAfter().Absent == "" && q.Times.Value > 0 && !math.IsInf(q.Times.Value, 0)
}

func (q Question) PointBefore() LessonPoint { return q.Points[q.Before] }

func (q Question) PointAfter() LessonPoint { return q.Points[q.After] }
