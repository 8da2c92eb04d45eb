package fit

import (
	"math"

	"arrayodds/array"
	"arrayodds/array/elementary"
	"arrayodds/sim/estimate"

	"gonum.org/v1/gonum/stat/distuv"
)

// Weibull is a fitted law with the cumulative hazard (age/Scale)^Shape.
type Weibull struct {
	// Shape and Scale (in hours) with their 95 % profile-likelihood intervals.
	// An end that the record does not bound is 0 or +Inf.
	Shape, Scale  estimate.Estimate
	LogLikelihood float64
	// Covariance of shape and scale, in that order, from the observed
	// information: the inverse of minus the second derivatives at the best fit.
	Covariance [2][2]float64
}

// Mean returns the mean age at failure in hours.
func (w Weibull) Mean() float64 {
	return w.Scale.Value * math.Gamma(1+1/w.Shape.Value)
}

// StdDev returns the standard deviation of the age at failure, in hours.
func (w Weibull) StdDev() float64 {
	m := math.Gamma(1 + 1/w.Shape.Value)
	return w.Scale.Value * math.Sqrt(math.Gamma(1+2/w.Shape.Value)-m*m)
}

// Bounds of the errors that a site file may hold.
const (
	mostLifeError       = 3
	mostLifeCorrelation = 0.999
)

// life returns the law for a site file: the estimates with their standard errors, as
// those of their logarithms, which is what relative errors are to first order.
func (w Weibull) life() array.FittedWeibull {
	correlation := w.Covariance[0][1] / math.Sqrt(w.Covariance[0][0]*w.Covariance[1][1])
	return array.FittedWeibull{
		Shape: w.Shape.Value, Scale: w.Scale.Value,
		ShapeError:  math.Min(w.Shape.RelativeError, mostLifeError),
		ScaleError:  math.Min(w.Scale.RelativeError, mostLifeError),
		Correlation: math.Max(-mostLifeCorrelation, math.Min(correlation, mostLifeCorrelation)),
	}
}

// Shapes that are looked at. Outside of them a record says nothing that could
// be told from failures at one age, or all at the start.
const (
	leastShape = 0.02
	mostShape  = 200
)

// gridStep is the distance of the first, coarse look at shapes, in logarithms:
// with truncation the likelihood need not have one peak only.
const gridStep = 0.4

// drop is how far the log likelihood falls to the ends of a 95 % interval.
var drop = distuv.ChiSquared{K: 1}.Quantile(0.95) / 2

// weibull fits by maximum likelihood. It is nil where the likelihood has no
// greatest value within the shapes looked at: no failures, or all at one age.
func (r record) weibull() *Weibull {
	if r.failures == 0 {
		return nil
	}
	profile := func(logShape float64) float64 { p, _ := r.profile(logShape); return p }
	low, high := math.Log(leastShape), math.Log(mostShape)
	best, bestAt := math.Inf(-1), 0.0
	for x := low; x <= high; x += gridStep {
		if p := profile(x); p > best {
			best, bestAt = p, x
		}
	}
	from, to := math.Max(low, bestAt-gridStep), math.Min(high, bestAt+gridStep)
	at, best := peak(profile, from, to, 1e-9)
	if at-low < edge || high-at < edge {
		return nil
	}
	at = r.polished(at)
	w := &Weibull{LogLikelihood: best}
	_, logScale := r.profile(at)
	w.Shape.Value, w.Scale.Value = elementary.Exp(at), elementary.Exp(logScale)

	deficit := func(x float64) float64 { return profile(x) - best + drop }
	shapeLow, boundLow := leave(deficit, at, low)
	shapeHigh, boundHigh := leave(deficit, at, high)
	scaleLow, scaleHigh := r.scaleEnds(best, at, shapeLow, shapeHigh)
	w.Shape.Low, w.Shape.High = elementary.Exp(shapeLow), elementary.Exp(shapeHigh)
	w.Scale.Low, w.Scale.High = elementary.Exp(scaleLow), elementary.Exp(scaleHigh)
	if !boundLow { // a shape near 0 puts the scale anywhere
		w.Shape.Low, w.Scale.Low, w.Scale.High = 0, 0, math.Inf(1)
	}
	if !boundHigh {
		w.Shape.High = math.Inf(1)
	}
	w.Covariance = r.covariance(w.Shape.Value, w.Scale.Value)
	w.Shape.RelativeError = math.Sqrt(w.Covariance[0][0]) / w.Shape.Value
	w.Scale.RelativeError = math.Sqrt(w.Covariance[1][1]) / w.Scale.Value
	return w
}

// edge is how near, in logarithms, a peak may lie to the end of the shapes.
const edge = 1e-3

// profile returns the log likelihood of a shape with the scale that suits it best,
// and the logarithm of that scale. With S the sum of hours^β − entered^β, the scale^β
// is S/failures.
func (r record) profile(logShape float64) (logLikelihood, logScale float64) {
	shape := elementary.Exp(logShape)
	sum := 0.0
	for i := range r.lives {
		l := &r.lives[i]
		sum += l.count * elementary.Exp(shape*l.logHours) * -math.Expm1(shape*(l.logOpened-l.logHours))
	}
	k := r.failures
	unit := math.Log(r.longest)
	logScale = unit + math.Log(sum/k)/shape
	return k*(logShape-unit) + (shape-1)*r.logFailed - k*math.Log(sum/k) - k, logScale
}

// polished returns where the slope of the profile is nought, by Newton's method from a
// peak on. The values of the profile tell its peak to the root of their last digit only,
// and where the shape is small the scale, which is its power, by far less.
func (r record) polished(at float64) float64 {
	const width, most = 1e-4, 1e-5
	for range 3 {
		step := 2 * width * r.slope(at) / (r.slope(at-width) - r.slope(at+width))
		if !(math.Abs(step) < most) {
			break // no peak that Newton's method is for
		}
		at += step
	}
	return at
}

// slope returns the derivative of the profile by the logarithm of the shape.
func (r record) slope(logShape float64) float64 {
	shape := elementary.Exp(logShape)
	a0, a1, _ := r.sums(shape, 0)
	return r.failures + shape*(r.logFailed-r.failures*a1/a0)
}

// scaleEnds returns the logarithms of the least and the greatest scale that any shape
// allows within the 95 % contour of the likelihood. For a given shape the log
// likelihood falls from its profile by k(v + exp(−v) − 1), where v is the shape times
// the distance of the logarithms of the scales; so the contour needs no further sums.
func (r record) scaleEnds(best, at, shapeLow, shapeHigh float64) (low, high float64) {
	end := func(side float64) func(float64) float64 {
		return func(x float64) float64 {
			p, logScale := r.profile(x)
			room := math.Max(0, p-best+drop) / r.failures
			return side*logScale + math.Abs(fall(room, side))/elementary.Exp(x)
		}
	}
	// Each end lies on the way from the best shape to one end of the shapes or
	// the other.
	const width = 1e-5
	greatest := func(f func(float64) float64) float64 {
		_, a := peak(f, shapeLow, at, width)
		_, b := peak(f, at, shapeHigh, width)
		return math.Max(a, b)
	}
	return -greatest(end(-1)), greatest(end(1))
}

// fall solves v + exp(−v) − 1 = room (0 or more) for the v of that sign.
func fall(room, side float64) float64 {
	v := side * math.Sqrt(2*room)
	if side > 0 {
		v += room // not below the root, whence Newton comes down to it
	}
	for range 100 {
		slope := -math.Expm1(-v)
		if slope == 0 {
			return v
		}
		step := (v + math.Expm1(-v) - room) / slope
		v -= step
		if math.Abs(step) <= 1e-14*math.Abs(v) {
			return v
		}
	}
	return v
}

// covariance inverts the observed information.
func (r record) covariance(shape, scale float64) [2][2]float64 {
	a0, a1, a2 := r.sums(shape, math.Log(r.longest/scale))
	k := r.failures
	bb := k/(shape*shape) + a2
	ss := (shape*(shape+1)*a0 - k*shape) / (scale * scale)
	bs := (k - a0 - shape*a1) / scale
	det := bb*ss - bs*bs
	return [2][2]float64{{ss / det, -bs / det}, {-bs / det, bb / det}}
}

// sums returns the sums of x^shape, the same times log x, and times its square, over the
// hours of all lives less those at which they were entered. The logarithm of the longest is
// offset.
func (r record) sums(shape, offset float64) (a0, a1, a2 float64) {
	add := func(weight, logX float64) {
		if math.IsInf(logX, -1) {
			return
		}
		x := weight * elementary.Exp(shape*logX)
		a0, a1, a2 = a0+x, a1+x*logX, a2+x*logX*logX
	}
	for _, l := range r.lives {
		add(l.count, l.logHours+offset)
		add(-l.count, l.logOpened+offset)
	}
	return a0, a1, a2
}
