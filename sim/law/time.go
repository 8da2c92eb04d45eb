package law

import (
	"fmt"
	"reflect"

	"arrayodds/array"
	"arrayodds/sim/stream"
)

// Time is a length of time that does not depend on when it begins.
type Time interface {
	Draw(s *stream.Stream) float64
	Mean() float64
	// MeanWithin is E[min(x, d)], the mean of what falls within the first d
	// hours.
	MeanWithin(d float64) float64
	// Parts splits the length into a part that is always the same and a rest
	// that is a matter of chance; rest is nil where nothing is.
	Parts() (fixed float64, rest Tiltable)
}

// Tiltable is a law on x > 0 that can be drawn with density ∝ x^r f(x).
type Tiltable interface {
	Draw(s *stream.Stream) float64
	// LogMoment is log E[x^r], r 0 or more.
	LogMoment(r int) float64
	// DrawTilted draws from x^r f(x) ÷ E[x^r]; r = 0 is Draw.
	DrawTilted(s *stream.Stream, r int) float64
}

// timeLaws makes the law of each type of length that a site can describe; every law's
// file adds its own.
var timeLaws = map[reflect.Type]func(of array.Time) Time{}

// addTime adds what makes the laws of a type of length.
func addTime[A array.Time](law func(of A) Time) {
	timeLaws[reflect.TypeFor[A]()] = func(of array.Time) Time { return law(of.(A)) }
}

// OfTime returns the law that a site describes. Open hours are no such law (they
// depend on the hour of the week): they are an error here.
func OfTime(t array.Time) (Time, error) {
	law, ok := timeLaws[reflect.TypeOf(t)]
	if !ok {
		return nil, fmt.Errorf("no law for a length of type %T", t)
	}
	return law(t), nil
}

// AsExponential returns the exponential law that a length has, however it was
// written.
func AsExponential(t Time) (Exponential, bool) {
	e, ok := t.(interface{ Exponential() (Exponential, bool) })
	if !ok {
		return 0, false
	}
	return e.Exponential()
}

func init() { addTime(func(of array.Fixed) Time { return Fixed(of.Hours) }) }

// Fixed is a length of that many hours, without chance.
type Fixed float64

func (f Fixed) Draw(*stream.Stream) float64  { return float64(f) }
func (f Fixed) Mean() float64                { return float64(f) }
func (f Fixed) MeanWithin(d float64) float64 { return min(float64(f), d) }
func (f Fixed) Parts() (float64, Tiltable)   { return float64(f), nil }
