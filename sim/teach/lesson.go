package teach

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/site"
	"arrayodds/sim/estimate"
)

// Lesson is the result of [Run], or without answers of [Ask]: questions that each move one
// input of a choice, for a reader to predict before seeing what the simulation says.
type Lesson struct {
	Site        array.Site
	Choice      array.Choice
	Sizing      array.Sizing
	Seed        uint64
	Loss        estimate.Estimate // loss chance of the choice as it stands
	Unanswered  bool              // the questions alone: no point, time or fact of them is known, nor Loss
	Questions   []Question
	NotAsked    []string // what was to be asked and has no question here, and why, a sentence each
	Assumptions []site.Assumption
}

// Question moves one input of the choice.
type Question struct {
	Key   string // one of [Keys]
	Title string // "Larger drives"
	Ask   string // the question, in sentences
	// Any reports whether the chances are those of losing anything at all, be it one
	// stripe; else they are those of losing a group.
	Any    bool
	Points []Point
	Before int // place in Points of the choice as it stands
	After  int // place of the one that is asked about
	// Times is the chance after ÷ the one before, with the interval that the same
	// random streams give; if Any, with that of two runs of their own.
	Times estimate.Estimate
	Facts []Fact // what explains it
	Why   string // the explanation, in sentences
}

// Point is the loss chance at one value of the input.
type Point struct {
	Text   string // "24 TB, 5 drives"
	Absent string // why there is no figure; empty: there is
	Loss   estimate.Estimate
}

// Fact is a figure before and after, in words.
type Fact struct{ Name, Before, After string }

// Answered reports whether there is an answer in figures.
func (q Question) Answered() bool {
	return q.PointBefore().Absent == "" && q.PointAfter().Absent == "" && q.Times.Value > 0 && !math.IsInf(q.Times.Value, 0)
}

// PointBefore returns the point of the choice as it stands.
func (q Question) PointBefore() Point { return q.Points[q.Before] }

// PointAfter returns the point that is asked about.
func (q Question) PointAfter() Point { return q.Points[q.After] }
