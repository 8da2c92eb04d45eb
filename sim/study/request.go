package study

import (
	"fmt"

	"arrayodds/array/site/axis"
	"arrayodds/sim/engine"
)

// Request is what every question has: a site, choices of it, and how to simulate.
type Request struct {
	Source  *axis.Source
	Choices []int // places in the site file
	Options engine.Options
	// Replicate, where it is not nil, returns a replicate of the doubt, counted from 0,
	// that [RunReplicate] worked out elsewhere; nil where [Compare] is to work it out.
	Replicate func(r int) *Replicate
}

// Bounds of what one request may ask.
const (
	MostPoints = 20_000 // choices × values
	MostValues = 2_500  // pairs of values of two inputs
)

// LimitError says that a request asks for more than is simulated at a time.
type LimitError struct{ Found, Right string }

func (e *LimitError) Error() string {
	return fmt.Sprintf("found %s; right would be %s", e.Found, e.Right)
}

// checkPoints returns an error for more points than are simulated at a time.
func checkPoints(choices, each int) error {
	if n := choices * each; n > MostPoints {
		return &LimitError{fmt.Sprintf("%d choices at %d settings each, %d to simulate", choices, each, n), fmt.Sprintf("at most %d: fewer values, or fewer choices by --choice", MostPoints)}
	}
	return nil
}
