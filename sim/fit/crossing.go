package fit

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/elementary"
	"arrayodds/array/unit"
	"arrayodds/sim/estimate"
)

// CrossedRates is the yearly rates, in failures per drive-year, of which it is told at
// what age drives reach them.
var CrossedRates = []float64{0.05, 0.10}

// Crossing is the age at which the yearly failure rate of a law, its hazard, passes a
// rate.
type Crossing struct {
	Rate   float64 // failures per drive-year
	Rising bool    // from then on it is above; else below
	// Age is in hours, with its 95 % profile-likelihood interval.
	Age  estimate.Estimate
	Seen bool // it lies within the ages that the record tells of
}

// MostYears is the age beyond which it does not matter when a rate is passed.
const MostYears = 100

// Years returns the age in years, an end beyond [MostYears] as unbounded; false where
// the age itself is.
func (c Crossing) Years() (estimate.Estimate, bool) {
	e := c.Age.Times(1.0 / unit.HoursPerYear)
	if e.High > MostYears {
		e.High = math.Inf(1)
	}
	return e, e.Value <= MostYears
}

// crossings returns where the law that the record decides for passes the rates; nil
// where that is a constant rate, which passes none.
//
// The hazard of a Weibull law is β/η·(t/η)^(β−1) (NIST/SEMATECH e-Handbook, 8.1.6.2),
// so that it is λ at t = (λ·η^β/β)^(1/(β−1)).
func (r record) crossings(w *Weibull, life array.Life, youngest float64) []Crossing {
	if _, decided := life.(array.FittedWeibull); !decided {
		return nil
	}
	logAge := func(rate, logShape, logScale float64) float64 {
		shape := elementary.Exp(logShape)
		return (math.Log(rate/unit.HoursPerYear) + shape*logScale - logShape) / (shape - 1)
	}
	contour := r.contour(w)
	var all []Crossing
	for _, rate := range CrossedRates {
		c := Crossing{Rate: rate, Rising: w.Shape.Value > 1}
		end := func(side float64) float64 {
			return contour.greatest(func(p contourPoint) float64 {
				return math.Max(side*logAge(rate, p.logShape, p.logLow), side*logAge(rate, p.logShape, p.logHigh))
			})
		}
		c.Age.Value = elementary.Exp(logAge(rate, math.Log(w.Shape.Value), math.Log(w.Scale.Value)))
		c.Age.Low, c.Age.High = math.Min(elementary.Exp(-end(-1)), c.Age.Value), math.Max(elementary.Exp(end(1)), c.Age.Value)
		c.Seen = c.Age.Value >= youngest && c.Age.Value <= r.longest
		all = append(all, c)
	}
	return all
}

// contour is the shapes and scales on the edge of what the record allows: there the log
// likelihood is that of the best law less [drop]. Whatever is a function of both has as
// its 95 % profile-likelihood interval what it is along it.
type contour struct {
	at     func(logShape float64) contourPoint
	points []contourPoint
}

// contourPoint is a shape with the least and the greatest scale beside it, in
// logarithms.
type contourPoint struct{ logShape, logLow, logHigh float64 }

// contourPoints is how many shapes are looked at first: a function need not have one
// peak along the contour.
const contourPoints = 48

func (r record) contour(w *Weibull) contour {
	c := contour{at: func(x float64) contourPoint {
		p, logScale := r.profile(x)
		room := math.Max(0, p-w.LogLikelihood+drop) / r.failures
		shape := elementary.Exp(x)
		return contourPoint{x, logScale - math.Abs(fall(room, -1))/shape, logScale + math.Abs(fall(room, 1))/shape}
	}}
	low, high := math.Log(w.Shape.Low), math.Log(w.Shape.High)
	for i := range contourPoints + 1 {
		c.points = append(c.points, c.at(low+(high-low)*float64(i)/contourPoints))
	}
	return c
}

// greatest returns the greatest value of f along the contour.
func (c contour) greatest(f func(contourPoint) float64) float64 {
	best, at := math.Inf(-1), 0
	for i, p := range c.points {
		if v := f(p); v > best {
			best, at = v, i
		}
	}
	from, to := c.points[max(at-1, 0)].logShape, c.points[min(at+1, len(c.points)-1)].logShape
	_, value := peak(func(x float64) float64 { return f(c.at(x)) }, from, to, 1e-5)
	return math.Max(best, value)
}
