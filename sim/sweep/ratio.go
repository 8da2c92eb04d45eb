package sweep

import (
	"math"

	"arrayodds/array/elementary"
	"arrayodds/sim/estimate"
	"arrayodds/sim/model"

	"gonum.org/v1/gonum/stat/distuv"
)

// Ratio is one loss chance ÷ another.
type Ratio struct {
	// The estimate's interval is that of the two points' common streams.
	estimate.Estimate
	// Independent has the same Value with the interval that two runs with streams of
	// their own would have given.
	Independent estimate.Estimate
}

// t95 is how many standard errors, each estimated from 128 bundles, a 95 % interval
// reaches to each side.
var t95 = distuv.StudentsT{Sigma: 1, Nu: bundles - 1}.Quantile(0.975)

// minError is the least that the standard error of a ratio is taken to be, as a
// share of what it would be without common streams. Below that it rests on the few
// lives that differ, of which a sample may hold none.
const minError = 0.02

// Ratio returns the loss chance of point i ÷ that of point j of series b, which may
// be the same series. It is exactly 1, without an interval, where both are the same
// system at the same number of trials from the same seed.
//
// The logarithm of the ratio of two sums over bundles varies, to first order (the
// delta method), as the difference of their relative deviations, bundle by
// bundle; its standard error comes of the spread of those 128 differences. The
// closer two points, the more that spread rests on the few lives that differ, and
// the less it is known itself: so the interval is that of Student's t on as many
// degrees of freedom as the kurtosis of the differences leaves of 127 (after
// G. E. P. Box, "Non-normality and tests on variances", Biometrika 40, 1953; from
// memory), and the standard error is never taken to be less than 1/50 of that
// without common streams. Two series with different seeds have nothing in common:
// there both intervals are alike.
//
// All is NaN where point j has no loss chance (nothing can fail, none was seen, or
// it has an Err) and where point i has an Err. Where point i alone has none, the
// ratio is 0: without an interval if nothing can fail there, with High +Inf if no
// loss was seen only because it is rare.
func (s *Series) Ratio(i int, b *Series, j int) Ratio {
	x, y := s.members[i], b.members[j]
	if x.err != nil || y.err != nil || y.chance() == 0 {
		return Ratio{estimate.None(), estimate.None()}
	}
	if x.chance() == 0 {
		e := estimate.Estimate{}
		if math.IsInf(x.halfWidth(), 1) {
			e.High, e.RelativeError = math.Inf(1), 1
		}
		return Ratio{e, e}
	}
	value := x.chance() / y.chance()
	u, v := x.deviations(), y.deviations()
	paired := make([]float64, min(len(u), len(v)))
	for k := range paired {
		paired[k] = u[k] - v[k]
	}
	unseen := math.Hypot(x.unseen(), y.unseen())
	se, apart := errorOf(paired), math.Hypot(math.Hypot(errorOf(u), errorOf(v)), unseen)
	r := Ratio{Estimate: estimate.Exact(value), Independent: byFactor(value, apart, t95)}
	if se > 1e-13 { // else rounding of equal terms
		// What is added to the spread is not estimated from it.
		added := math.Hypot(minError*apart, unseen)
		all := math.Hypot(se, added)
		r.Estimate = byFactor(value, all, math.Hypot(studentOf(paired)*se, t95*added)/all)
	}
	return r
}

// byFactor returns an estimate whose logarithm has that standard error, with an
// interval that reaches so many of them to each side.
func byFactor(value, se, reach float64) estimate.Estimate {
	f := elementary.Exp(reach * se)
	return estimate.Estimate{Value: value, Low: value / f, High: value * f, RelativeError: se}
}

// studentOf returns the 97.5 % point of Student's t on the degrees of freedom of a
// variance that is estimated from such deviations: 2n/(kurtosis − 1), between 2 and n − 1.
func studentOf(d []float64) float64 {
	n := float64(len(d))
	second, fourth := 0.0, 0.0
	for _, x := range d {
		second += x * x / n
		fourth += x * x * x * x / n
	}
	free := 2 * n / (fourth/(second*second) - 1)
	if !(free < n-1) {
		if len(d) == bundles {
			return t95
		}
		free = n - 1
	}
	return distuv.StudentsT{Sigma: 1, Nu: math.Max(2, free)}.Quantile(0.975)
}

// chance returns the loss chance so far, which a few trials may put above 1.
func (m *member) chance() float64 {
	if m.sums.N == 0 {
		return 0
	}
	_, total := m.adjusted()
	return max(0, total/m.sums.N)
}

// adjusted returns the loss chance summed over the trials of each bundle that has any,
// with what it has in common with the controls taken out, and the sum over bundles: equal
// bundles have equal totals to the last digit.
func (m *member) adjusted() (each []float64, total float64) {
	adjusted := model.NewFit(&m.sums).Adjusted()
	each = make([]float64, min(len(m.bundle), int(m.sums.N)))
	for k := range each {
		each[k] = adjusted(&m.bundle[k])
		total += each[k]
	}
	return each, total
}

// unseen returns the relative standard error of what comes once in as many trials as
// there are, and may not have been seen.
func (m *member) unseen() float64 { return 1 / m.sums.N }

// deviations returns how far each bundle is from the mean bundle, as a share of it.
func (m *member) deviations() []float64 {
	d, total := m.adjusted()
	for k, x := range d {
		d[k] = x/(total/float64(len(d))) - 1
	}
	return d
}

// errorOf returns the standard error of the mean of deviations, whose own mean is 0.
func errorOf(d []float64) float64 {
	sum := 0.0
	for _, x := range d {
		sum += x * x
	}
	n := float64(len(d))
	return math.Sqrt(sum / (n - 1) / n)
}
