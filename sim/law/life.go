// Package law has the laws of chance that the simulation draws from: how long a
// drive lives and how long a wait, a rebuild or a latent defect lasts.
//
// A life is told by its cumulative hazard H(age): the chance to outlive an age
// is exp(−H). A length of time is told by its draws, its moments, and its
// tilted draws: those of the law with density proportional to x^r f(x), from
// which long lengths are drawn as often as they matter when r further failures
// must fall into them. Every law of a length of chance has its tilted law in
// closed form. [OpenHours] is no such law: it depends on when it begins.
//
// One law stands in one file. A new one needs its file here, its value in package
// array and its form in package array/site.
//
// Hours everywhere.
package law

import (
	"fmt"
	"reflect"

	"arrayodds/array"
)

// Life is how a drive of one model ages.
type Life interface {
	// Cumulative is the cumulative hazard at an age; 0 at age 0.
	Cumulative(age float64) float64
	// Over is Cumulative(age+d) − Cumulative(age), good to full relative
	// precision also where d is small against the age.
	Over(age, d float64) float64
	// Rate is the hazard per hour at an age. It may be +Inf at age 0.
	Rate(age float64) float64
	// MaxRate is a bound of Rate from an age on for d hours; +Inf where there is none.
	MaxRate(age, d float64) float64
	// Age is the age at which the cumulative hazard reaches h; +Inf where it
	// never does.
	Age(h float64) float64
	// Mean is the mean life.
	Mean() float64
}

// lifeLaws makes the law of each type of life that a site can describe; every law's
// file adds its own.
var lifeLaws = map[reflect.Type]func(of array.Life, scale float64) (life Life, uncertain float64){}

// addLife adds what makes the laws of a type of life.
func addLife[A array.Life](law func(of A, scale float64) (life Life, uncertain float64)) {
	lifeLaws[reflect.TypeFor[A]()] = func(of array.Life, scale float64) (Life, float64) { return law(of.(A), scale) }
}

// OfLife returns the law that a site describes, its hazard multiplied by scale. For
// a field record, and for a law that a log updated, it is the law at a Gamma variate of 1: the caller multiplies
// the hazard by a draw from Gamma(uncertain), once per simulated life. For a
// law whose rate is certain, uncertain is 0. A fitted law comes at its estimates;
// [OfFitted] has the doubt about them.
func OfLife(l array.Life, scale float64) (life Life, uncertain float64, err error) {
	law, ok := lifeLaws[reflect.TypeOf(l)]
	if !ok {
		return nil, 0, fmt.Errorf("no law for a life of type %T", l)
	}
	life, uncertain = law(l, scale)
	if life == nil {
		return nil, 0, fmt.Errorf("no law for what a life of type %T rests on", l)
	}
	return life, uncertain, nil
}

// AsConstant returns the rate of a life that has no memory, however it was written.
func AsConstant(l Life) (Constant, bool) {
	c, ok := l.(interface{ Constant() (Constant, bool) })
	if !ok {
		return Constant{}, false
	}
	return c.Constant()
}
