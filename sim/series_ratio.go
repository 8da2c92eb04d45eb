package sim

import (
	"math"

	"gonum.org/v1/gonum/stat/distuv"
)

// Ratio is one loss chance ÷ another.
type Ratio struct {
	// The estimate's interval is that of the two points' common streams.
	Estimate
	// Apart has the same Value with the interval that two runs with streams of
	// their own would have given.
	Apart Estimate
}

// t95 is how many standard errors, each told by the spread of 128 bundles, a
// 95 % interval reaches to each side.
var t95 = distuv.StudentsT{Sigma: 1, Nu: bundles - 1}.Quantile(0.975)

// Over is the loss chance of point i ÷ that of point j of series b, which may be
// the same series. It is exactly 1, without an interval, where both are the same
// system at the same number of trials from the same seed.
//
// The logarithm of the ratio of two sums over bundles varies, to first order (the
// delta method), as the difference of their relative deviations, bundle by
// bundle; its standard error comes of the spread of those 128 differences, and
// the interval of Student's t on 127 degrees of freedom. Two series with
// different seeds have nothing in common: there both intervals are alike.
//
// Where point j has no loss chance (nothing can fail, none was seen, or it has
// an Err), or point i has an Err, all is NaN. Where point i alone has none, the
// ratio is 0: without an interval if nothing can fail there, with High +Inf if no
// loss was seen only because it is rare.
func (s *Series) Over(i int, b *Series, j int) Ratio {
	x, y := s.members[i], b.members[j]
	if x.err != nil || y.err != nil || y.chance() == 0 {
		nan := math.NaN()
		e := Estimate{nan, nan, nan, nan}
		return Ratio{e, e}
	}
	if x.chance() == 0 {
		e := Estimate{}
		if math.IsInf(x.reach(), 1) {
			e.High, e.RelativeError = math.Inf(1), 1
		}
		return Ratio{e, e}
	}
	value := x.chance() / y.chance()
	u, v := x.deviations(), y.deviations()
	var paired, first, second [bundles]float64
	for k := range u {
		paired[k], first[k], second[k] = u[k]-v[k], u[k], v[k]
	}
	of := func(error float64) Estimate {
		if error < 1e-13 { // rounding of equal terms
			return closed(value)
		}
		reach := math.Exp(t95 * error)
		return Estimate{Value: value, Low: value / reach, High: value * reach, RelativeError: error}
	}
	return Ratio{of(errorOf(&paired)), of(math.Hypot(errorOf(&first), errorOf(&second)))}
}

// chance is the loss chance so far, which a few trials may put above 1.
func (m *member) chance() float64 {
	if m.sums.N == 0 {
		return 0
	}
	return m.total() / m.sums.N
}

// total is the sum over bundles, so that equal bundles have equal totals to the
// last digit.
func (m *member) total() (sum float64) {
	for _, x := range m.bundle {
		sum += x
	}
	return sum
}

// deviations is by how much of the mean bundle each bundle is off it.
func (m *member) deviations() (d [bundles]float64) {
	each := m.total() / bundles
	for k, x := range m.bundle {
		d[k] = x/each - 1
	}
	return d
}

// errorOf is the standard error of the mean of deviations, whose own mean is 0.
func errorOf(d *[bundles]float64) float64 {
	sum := 0.0
	for _, x := range d {
		sum += x * x
	}
	return math.Sqrt(sum / (bundles - 1) / bundles)
}
